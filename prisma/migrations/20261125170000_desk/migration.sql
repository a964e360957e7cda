-- The desk: poor fits taken on purpose, parties that travel together, what was lent, how a stay went, mail, calendars,
-- requests that found nothing, and word of every change for who is watching.

ALTER TABLE "park"
    -- Counts the changes of policy and stay settings, so that one made on an old view is refused.
    ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1;

ALTER TABLE "stay"
    -- Put on this site in spite of what the fit says: the verdict then, and why.
    ADD COLUMN "fit_override" JSONB,
    -- Stays that want neighbouring sites carry the same.
    ADD COLUMN "together" UUID,
    -- How a guest told the rig, as the form's address holds it, typical numbers left out; so that it can be changed there.
    ADD COLUMN "rig_query" TEXT,
    ADD COLUMN "outcome" TEXT,
    ADD COLUMN "outcome_note" TEXT NOT NULL DEFAULT '',
    ADD COLUMN "erased_at" TIMESTAMPTZ(3),
    ADD CONSTRAINT "stay_override_object" CHECK ("fit_override" IS NULL OR (jsonb_typeof("fit_override") = 'object' AND "site_id" IS NOT NULL)),
    ADD CONSTRAINT "stay_outcome_known" CHECK ("outcome" IN ('as-planned', 'moved', 'too-tight', 'damage')),
    ADD CONSTRAINT "stay_outcome_departed" CHECK ("outcome" IS NULL OR "state" = 'departed');

CREATE INDEX "stay_together_idx" ON "stay"("together");

CREATE TABLE "stay_note" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "by" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stay_note_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "stay_note_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_note_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_note_says_something" CHECK (length("text") BETWEEN 1 AND 2000)
);

CREATE INDEX "stay_note_stay_id_idx" ON "stay_note"("stay_id");

-- A cord, hose, adapter or set of blocks in a guest's hands. `item` is the id in the park's settings, `name` what it was called then.
CREATE TABLE "loan" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    "item" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "count" INTEGER NOT NULL DEFAULT 1,
    "returned_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "loan_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "loan_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "loan_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "loan_of_some" CHECK ("count" BETWEEN 1 AND 100)
);

CREATE INDEX "loan_stay_id_idx" ON "loan"("stay_id");
-- What is out now.
CREATE INDEX "loan_park_id_item_out_idx" ON "loan"("park_id", "item") WHERE "returned_at" IS NULL;

-- A request that found nothing, with the reasons then: what managers decide by. Asked again on the same day it is the same one.
CREATE TABLE "unmet_request" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "asked_on" DATE NOT NULL,
    "arrive" DATE NOT NULL,
    "depart" DATE NOT NULL,
    "rig" JSONB NOT NULL,
    "wanted" JSONB NOT NULL DEFAULT '{}',
    -- How many sites each thing turned it away from, and how many fit but were taken.
    "reasons" JSONB NOT NULL,
    "fingerprint" TEXT NOT NULL,
    "times" INTEGER NOT NULL DEFAULT 1,
    -- Where the guest left word to be told.
    "guest_name" TEXT,
    "guest_email" TEXT,
    "guest_phone" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "answered_at" TIMESTAMPTZ(3),
    "answered_by" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "unmet_request_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "unmet_request_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "unmet_request_has_nights" CHECK ("depart" > "arrive"),
    CONSTRAINT "unmet_request_objects" CHECK (jsonb_typeof("rig") = 'object' AND jsonb_typeof("wanted") = 'object' AND jsonb_typeof("reasons") = 'object'),
    CONSTRAINT "unmet_request_contact_has_name" CHECK ("guest_name" IS NOT NULL OR ("guest_email" IS NULL AND "guest_phone" IS NULL))
);

CREATE UNIQUE INDEX "unmet_request_park_id_asked_on_fingerprint_key" ON "unmet_request"("park_id", "asked_on", "fingerprint");
CREATE INDEX "unmet_request_park_id_created_at_idx" ON "unmet_request"("park_id", "created_at");

-- Mail to be sent, written in the transaction of the change it tells of. The text is made when it is sent, with a private
-- link of its own, and kept without it.
CREATE TABLE "mail" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID,
    "kind" TEXT NOT NULL,
    "to_address" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'queued',
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "next_try_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_error" TEXT,
    "subject" TEXT,
    "body" TEXT,
    "sent_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "mail_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "mail_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "mail_state_known" CHECK ("state" IN ('queued', 'sent', 'failed', 'by-hand'))
);

CREATE INDEX "mail_park_id_created_at_idx" ON "mail"("park_id", "created_at");
CREATE INDEX "mail_queued_idx" ON "mail"("next_try_at") WHERE "state" = 'queued';

-- A site's nights as a calendar for others to read, behind a token that is stored as its hash.
CREATE TABLE "calendar_feed" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "token_hash" TEXT NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "calendar_feed_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "calendar_feed_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "calendar_feed_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "calendar_feed_hashed" CHECK ("token_hash" ~ '^[0-9a-f]{64}$')
);

CREATE UNIQUE INDEX "calendar_feed_token_hash_key" ON "calendar_feed"("token_hash");
CREATE INDEX "calendar_feed_site_id_idx" ON "calendar_feed"("site_id");

-- Somebody else's calendar of a site, read from time to time; its events are closures.
CREATE TABLE "outside_calendar" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "url" TEXT NOT NULL,
    "next_read_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "read_at" TIMESTAMPTZ(3),
    "last_error" TEXT,
    -- Events that could not become closures, because somebody has the night.
    "conflicts" JSONB NOT NULL DEFAULT '[]',
    "removed_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "outside_calendar_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "outside_calendar_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "outside_calendar_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "outside_calendar_conflicts_list" CHECK (jsonb_typeof("conflicts") = 'array')
);

CREATE INDEX "outside_calendar_park_id_idx" ON "outside_calendar"("park_id");
CREATE INDEX "outside_calendar_site_id_idx" ON "outside_calendar"("site_id");

ALTER TABLE "closure"
    ADD COLUMN "calendar_id" UUID,
    ADD COLUMN "calendar_uid" TEXT,
    ADD CONSTRAINT "closure_calendar_id_fkey" FOREIGN KEY ("calendar_id") REFERENCES "outside_calendar"("id") ON DELETE SET NULL ON UPDATE CASCADE,
    ADD CONSTRAINT "closure_calendar_whole" CHECK ("calendar_id" IS NULL OR "calendar_uid" IS NOT NULL);

CREATE INDEX "closure_calendar_id_idx" ON "closure"("calendar_id");
-- An event closes a site once.
CREATE UNIQUE INDEX "closure_calendar_event_key" ON "closure"("calendar_id", "calendar_uid") WHERE "lifted_at" IS NULL;

-- The settings of a park, changed: who, when, from what, to what. A park's own row is its park.
CREATE FUNCTION "write_park_audit_entry"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    kind TEXT := nullif(current_setting('padwright.actor_kind', true), '');
BEGIN
    IF NEW.policy = OLD.policy AND NEW.stay_settings = OLD.stay_settings THEN RETURN NULL; END IF;
    IF kind IS NULL THEN
        RAISE EXCEPTION 'a change of % must say who makes it', TG_TABLE_NAME USING ERRCODE = 'check_violation', CONSTRAINT = 'audit_entry_has_actor';
    END IF;
    INSERT INTO audit_entry (park_id, actor_kind, actor, reason, subject, subject_id, before, after)
    VALUES (NEW.id, kind, nullif(current_setting('padwright.actor', true), ''), nullif(current_setting('padwright.reason', true), ''), TG_TABLE_NAME, NEW.id,
            jsonb_build_object('policy', OLD.policy, 'stay_settings', OLD.stay_settings), jsonb_build_object('policy', NEW.policy, 'stay_settings', NEW.stay_settings));
    RETURN NULL;
END $$;

CREATE TRIGGER "park_audited" AFTER UPDATE OF "policy", "stay_settings" ON "park" FOR EACH ROW EXECUTE FUNCTION "write_park_audit_entry"();
CREATE TRIGGER "stay_note_audited" AFTER INSERT OR UPDATE ON "stay_note" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "loan_audited" AFTER INSERT OR UPDATE ON "loan" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "calendar_feed_audited" AFTER INSERT OR UPDATE ON "calendar_feed" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();

-- Word of every change that has an entry, once it is committed: who listens asks for what it needs. Nothing of the change itself.
CREATE FUNCTION "tell_of_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    PERFORM pg_notify('padwright_change', json_build_object('park', NEW.park_id, 'subject', NEW.subject, 'id', NEW.subject_id)::text);
    RETURN NULL;
END $$;

CREATE TRIGGER "audit_entry_told" AFTER INSERT ON "audit_entry" FOR EACH ROW EXECUTE FUNCTION "tell_of_change"();

-- What is only ever added to may still lose a guest's data, where a manager erases it: by erase_guest alone, which says so.
CREATE OR REPLACE FUNCTION "refuse_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF TG_TABLE_NAME IN ('audit_entry', 'stay_payment') AND TG_OP = 'UPDATE' AND current_setting('padwright.erasing', true) = 'on' THEN RETURN NEW; END IF;
    IF TG_OP = 'UPDATE' OR pg_trigger_depth() < 2 THEN
        RAISE EXCEPTION '% is not changed afterwards', TG_TABLE_NAME USING ERRCODE = 'check_violation', CONSTRAINT = TG_TABLE_NAME || '_stays_as_it_is';
    END IF;
    RETURN OLD;
END $$;

-- Takes out of a stay everything that says who the guest was: the stay, its notes, mail, links, keys, and what the audit
-- kept of them. Nights, site, rig, price and who changed what remain. Only of a stay that is over.
CREATE FUNCTION "erase_guest"("of_stay" UUID) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
    personal TEXT[] := ARRAY['guest_name', 'guest_email', 'guest_phone', 'plate', 'note', 'outcome_note', 'text', 'means'];
BEGIN
    IF NOT EXISTS (SELECT 1 FROM stay WHERE id = of_stay AND state IN ('departed', 'cancelled', 'no-show')) THEN
        RAISE EXCEPTION 'only a stay that is over is erased' USING ERRCODE = 'check_violation', CONSTRAINT = 'stay_erased_when_over';
    END IF;
    UPDATE stay SET guest_name = 'erased', guest_email = NULL, guest_phone = NULL, plate = NULL, note = '', outcome_note = '', erased_at = clock_timestamp(),
                    version = version + 1, updated_at = clock_timestamp() WHERE id = of_stay;
    UPDATE stay_link SET revoked_at = clock_timestamp() WHERE stay_id = of_stay AND revoked_at IS NULL;
    PERFORM set_config('padwright.erasing', 'on', true);
    UPDATE stay_payment SET means = 'erased' WHERE stay_id = of_stay;
    UPDATE audit_entry SET before = before - personal, after = after - personal, reason = NULL,
                           actor = CASE WHEN actor_kind = 'guest' THEN NULL ELSE actor END
        WHERE subject_id = of_stay
           OR subject_id IN (SELECT id FROM stay_note WHERE stay_id = of_stay UNION ALL SELECT id FROM stay_payment WHERE stay_id = of_stay);
    PERFORM set_config('padwright.erasing', '', true);
    DELETE FROM stay_note WHERE stay_id = of_stay;
    DELETE FROM mail WHERE stay_id = of_stay;
    DELETE FROM idempotency_key WHERE stay_id = of_stay;
END $$;
