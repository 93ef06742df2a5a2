"""Files broken at random and jobs made at random, each followed through the whole program."""
