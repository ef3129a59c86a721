"""What is printed or exported: cards, records as text, CSV and JSON, pictures."""
