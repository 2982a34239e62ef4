"""Site practice: screed, first heat-up, coverings and the cautions that go with them."""
