"""Documents that are made of results: the handover pack, lists, records, tables for spreadsheets."""
