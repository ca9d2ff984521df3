"""Method Sheets: machining methods written once, worked out with units, proved on a solid, published as a handbook."""

__version__ = "0.1.0"
