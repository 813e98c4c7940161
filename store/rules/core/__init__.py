"""What every room stands on: keeping answers, findings, figures, checks, the registry, the code in force, words."""
