"""Trade knowledge as data: each table is a file with a source column, loaded once when first asked for."""
