"""The fastener groups people wrote down: format, reading, finding, checking."""
