"""When a shell is ready: working days, what the stages can take, slots, and what becomes of promises."""
