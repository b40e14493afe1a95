"""Tables as data: fields, battings, bobbins, stitch formats."""
