"""settings: what an owner tells of the shop, and what obeys it."""
