"""What an inspector finds on a shell, held against its book: subjects, readings, judgements. Pure."""
