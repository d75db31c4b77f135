"""Package `stillfoot` as it is installed: the one name that a wheel adds to site-packages.

The build puts this folder's files above `drills`, `engine` and `levels` in the wheel. Importing the
package puts its folder first on the path, so that `engine` is the one in it and never that of
another project. Processes spawned for more cores are given the path of the first one.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
