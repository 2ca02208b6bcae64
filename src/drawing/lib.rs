//! What to draw, as data in millimeters with roles.
