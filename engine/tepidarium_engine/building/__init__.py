"""The whole building: what a design is made of and how its parts are found."""
