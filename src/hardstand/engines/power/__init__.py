"""Power: what every node of the direct-current network has, at rest, in flight and in failure.

The computation itself is the folder `network`, which knows elements and nodes but no aeroplane.
"""
