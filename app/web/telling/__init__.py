"""Reasons, whys and alternatives in whole sentences, as a clerk would read them out. Decides nothing."""

from app.web.telling.offers import offers_view
from app.web.telling.reasons import refusal_view
from app.web.telling.speech import Speech
from app.web.telling.whys import why_view

__all__ = ["Speech", "offers_view", "refusal_view", "why_view"]
