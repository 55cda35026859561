"""When shells are built: slots, promises, the calendar, and whether it all holds."""
