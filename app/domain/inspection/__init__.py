"""What is looked at on a shell, which readings count, what may stay as it is."""
