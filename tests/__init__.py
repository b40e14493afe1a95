"""Makes this folder the package `tests`: a dependency installs one of that name too."""
