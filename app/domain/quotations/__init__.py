"""From enquiry to answer: revisions, changes, approvals, what is waited for, then and now."""
