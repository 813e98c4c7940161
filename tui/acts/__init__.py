"""Guided acts, one a module: print, import, replace, retire, sign, remove."""
