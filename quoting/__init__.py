"""Spreadsheet-driven batch quoting for a balloon décor shop."""
