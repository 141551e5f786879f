"""Lists that come from elsewhere and go elsewhere: customers, vehicles and parts, a row each."""
