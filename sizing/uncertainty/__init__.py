"""How far each length can be off: tape and reading, frames and boxes, wood, cutting."""
