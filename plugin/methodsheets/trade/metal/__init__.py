"""What is the metal like, how much of it is wanted, and where is its middle?"""

TITLE = "Balance and metal"
PLACE = 7
SUBJECTS = {
    "balance": "Balance",
    "centroids": "Centroids",
    "materials": "Materials",
    "heat": "Hardening and tempering",
    "stock": "Stock, weight, price",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
