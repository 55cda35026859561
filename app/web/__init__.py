"""HTTP round the services: what came in is read, a service is asked, what it says is written. No rule is here."""
