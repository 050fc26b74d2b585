"""What every layer may use: findings, errors, the clock, units, and where shipped files lie."""
