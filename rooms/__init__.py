"""Outdoor rooms from tape readings: exact lengths, survey adjustment, openings, obstacles, walkways."""
