"""The Textual front end: shows the walk and passes keys on; decides nothing about bolts."""
