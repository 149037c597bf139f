"""From tokens to steps: the grammar of one instruction line."""
