"""Who asks the demo firm for shells: invented people, at invented addresses, on telephone numbers kept for fiction."""

from __future__ import annotations

from app.domain.customers.customer import Customer

# Dealers who buy for their own stock.
HOLLIN_LANE = Customer("Hollin Lane Classics", True, "GB", telephone="+44 1632 960 355", dealer="hollin-lane")
LINDENHOF = Customer("Werkstatt Lindenhof", True, "DE", "de", telephone="+49 30 23125 017", dealer="lindenhof")
BAYOU_ROAD = Customer(
    "Bayou Road Sports Cars", True, "US", units="imperial", telephone="+1 555 555 0142", dealer="bayou-road"
)
KAROO_ROAD = Customer("Karoo Road Restorations", True, "ZA", email="workshop@karooroad.example", dealer="karoo-road")

# Customers of a dealer's, in whose name he asks.
CUTHBERT = Customer("Cuthbert Rill", country="GB", telephone="+44 1632 960 381", dealer="hollin-lane")
IVO = Customer("Ivo Thackwell", country="GB", telephone="+44 7700 900 166", dealer="hollin-lane")
ANSELM = Customer("Anselm Brückwart", False, "DE", "de", telephone="+49 221 4710 233", dealer="lindenhof")
HENRIKE = Customer("Henrike Ollerich", False, "DE", "de", telephone="+49 40 66969 114", dealer="lindenhof")
ROSCOE = Customer("Roscoe Tillwater", False, "US", units="imperial", telephone="+1 555 555 0117", dealer="bayou-road")
HOLLIS = Customer("Hollis Prewitt", False, "US", units="imperial", telephone="+1 555 555 0168", dealer="bayou-road")
ANNELIE = Customer("Annelie Rooibaard", country="ZA", email="annelie@rooibaard.example", dealer="karoo-road")

# Private customers of the firm's own.
WILFRED = Customer("Wilfred Tarrant", country="GB", telephone="+44 1632 960 210", address="The Old Forge\nCopperbeck")
ISOLDE = Customer("Isolde Crake", country="GB", telephone="+44 1632 960 245", address="Mill House\nTarnside")
HUMPHREY = Customer("Humphrey Sedgwin", country="GB", telephone="+44 7700 900 121", email="humphrey@sedgwin.example")
BEATRIX = Customer("Beatrix Lorne", country="GB", telephone="+44 1632 960 288", address="9 Quarry Row\nHollin")
JORY = Customer("Jory Penhallick", country="GB", telephone="+44 7700 900 143")
DORCAS = Customer("Dorcas Pell", country="GB", telephone="+44 1632 960 302", address="2 Sheepwash Lane\nOtterfold")
OTTILIE = Customer("Ottilie Grange", country="GB", telephone="+44 1632 960 319", email="ottilie@grange.example")
SILAS = Customer("Silas Overbeck", country="GB", telephone="+44 7700 900 187")
MARJORY = Customer("Marjory Fenwater", country="GB", telephone="+44 1632 960 333", address="Weir End\nCopperbeck")
AGNES = Customer("Agnes Thornbury", country="GB", telephone="+44 1632 960 204", address="3 Weir Cottages\nOtterfold")
MAUD = Customer("Maud Ferrier", country="GB", telephone="+44 1632 960 417", email="maud@ferrier.example")
ALDOUS = Customer("Aldous Fenn", country="GB", telephone="+44 1632 960 429", address="Kiln Barn\nRavensmoor")
UNA = Customer("Una Brackwell", country="GB", telephone="+44 7700 900 152")
TOBIAS = Customer("Tobias Fell", country="GB", telephone="+44 1632 960 471")
MATHILDE = Customer("Mathilde Corvoisier", country="FR", telephone="+33 1 99 00 42 17", email="m@corvoisier.example")
FINTAN = Customer("Fintan Garrahy", country="IE", telephone="+353 20 912 4417", email="fintan@garrahy.example")
SIGRID = Customer("Sigrid Almlöv", country="SE", telephone="+46 8 465 004 12", email="sigrid@almlov.example")
JOOST = Customer("Joost Veldkraai", country="NL", email="joost@veldkraai.example")
GERLINDE = Customer("Gerlinde Hasslocher", country="AT", language="de", email="gerlinde@hasslocher.example")
DARCY = Customer("Darcy Willowby", country="AU", telephone="+61 2 5550 0142", email="darcy@willowby.example")
TAMSIN = Customer("Tamsin Rookfield", country="NZ", email="tamsin@rookfield.example")
MAELLE = Customer("Maëlle Desruisse", country="CA", units="imperial", telephone="+1 555 555 0181")
XIMENA = Customer("Ximena Altapiedra", country="MX", email="ximena@altapiedra.example")
