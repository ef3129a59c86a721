"""Walking a group bolt by bolt: plan, progress as a fold of events, and the journal that keeps them."""
