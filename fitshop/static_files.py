"""How static files are named: by their content, so that a browser may keep them for ever.

Style sheets name their fonts and pictures, and a JavaScript module the modules that it imports, by
such a name too: when an inner module changes, so does every address on the way to it.
"""

from whitenoise.storage import CompressedManifestStaticFilesStorage

# An import or re-export at the start of a line, over one line or several. What stands in a comment
# or in a type (`import("./types.js")`) is not one, and may go round in circles.
_IMPORTED = (
    r"""(?m)^(?P<matched>(?P<head>(?:import|export)\b[^;"']*?\bfrom\s*)"""
    r"""["'](?P<url>\.{1,2}/[^"']+\.js)["'];)""",
    """%(head)s"%(url)s";""",
)


class HashedModules(CompressedManifestStaticFilesStorage):
    """Every file under a name with its content's hash, imports of modules included."""

    patterns = (*CompressedManifestStaticFilesStorage.patterns, ("*.js", (_IMPORTED,)))
    # A pass settles one more step of the way from a page's first module to its innermost.
    max_post_process_passes = 16
