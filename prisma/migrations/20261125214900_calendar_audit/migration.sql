-- Who had an outside calendar read, by which name and from where, and who ended that. Each reading of it is no change: what a
-- reading closes and opens has entries of its own.
CREATE TRIGGER "outside_calendar_audited" AFTER INSERT OR UPDATE OF "name", "url", "removed_at" ON "outside_calendar" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
