"""Body, ease and gauge to whole numbers for every size."""
