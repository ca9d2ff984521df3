"""What have I got? Machines, ways of holding, tools, dividing gear and what an hour costs."""
