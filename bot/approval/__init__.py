"""The maker's yes or no."""
