"""Where deciding and saving meet, and nowhere else: load, ask, save, return. One function per thing that is done.

Every function takes the store, who asks (`actor`), and the moment (`now`, with its zone) where it matters. It refuses
by raising a leaf of `app.domain.errors`; it knows nothing of HTTP and of words.
"""
