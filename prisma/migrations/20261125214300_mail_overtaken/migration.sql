-- What mail tells of may have changed before it could be sent: then it is overtaken, and not sent. Mail sent by hand says by whom.
ALTER TABLE "mail"
    DROP CONSTRAINT "mail_state_known",
    ADD CONSTRAINT "mail_state_known" CHECK ("state" IN ('queued', 'sent', 'failed', 'by-hand', 'overtaken')),
    ADD COLUMN "sent_by" TEXT;

-- What still waits to be sent of a stay is looked for with each of its changes.
CREATE INDEX "mail_stay_id_idx" ON "mail"("stay_id");
