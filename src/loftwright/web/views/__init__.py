"""What each page shows, as values: all words and figures, no markup."""
