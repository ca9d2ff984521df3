"""How does a solid look: views, sections, hidden lines, shading?"""
