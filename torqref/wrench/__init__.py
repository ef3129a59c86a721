"""The wrench in the hand: rack, adapters, setting, and the band of torque at the fastener."""
