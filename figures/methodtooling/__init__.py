"""What room do holders, tools and cutters take up? Outlines in true size, for the reach test and for whoever draws."""
