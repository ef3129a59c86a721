"""The technician's own rack: which wrench, set to what, and what reaches the fastener."""
