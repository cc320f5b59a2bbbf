"""From a customer's words to facts about dogs."""
