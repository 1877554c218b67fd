"""The edges of the sweater: neckband, hem and cuff, and a front that is cut open."""
