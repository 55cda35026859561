"""What each command does. `app.cli` reads the arguments and imports the one module that the command needs."""
