"""The work on the rotary table or in the dividing head."""
