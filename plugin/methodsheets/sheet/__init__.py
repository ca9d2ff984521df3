"""What does a method sheet consist of? Plain records that pages, exports and the store all read."""
