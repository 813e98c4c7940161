"""The screen of a job: its layout, its keys, its desk."""
