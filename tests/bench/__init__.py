"""What things take, against a yardstick measured in the same run (`make bench`). No absolute time is ever asserted."""
