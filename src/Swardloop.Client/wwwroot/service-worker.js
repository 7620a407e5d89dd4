// While the program is being made there is no worker: every load is fresh. Publishing puts the other one in its place.
