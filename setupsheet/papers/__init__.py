"""Plan and ink to pages: the setup sheets and the drawing as HTML and PDF."""
