"""Engineering drawings as SVG: views, sections, set-ups and charts to drawing practice."""
