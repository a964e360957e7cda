-- Sites change: who changed what of which, when and why; sites taken out of use; changes that are looked at before they are
-- saved; and the stays that no longer fit because a site changed.
--
-- Rules that must hold whatever the code does are here: no change of a site's record without its revision, no revision
-- changed afterwards, nobody on a site that is out of use.

ALTER TABLE "site"
    -- Counts its revisions, so that a change that began from an older one is refused.
    ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1,
    -- Out of use from then on. Its past stays still name it, so it is not deleted.
    ADD COLUMN "retired_at" TIMESTAMPTZ(3),
    -- The revision that the stays ahead were last judged on. Behind `version`: what a change means for them is still to be told.
    ADD COLUMN "weighed_version" INTEGER NOT NULL DEFAULT 1;

-- What a change means for stays is told soon after it: almost no site waits.
CREATE INDEX "site_to_weigh_idx" ON "site"("updated_at") WHERE "weighed_version" < "version";

-- Every record a site ever had, from the first. `record` is null where it was taken out of use.
CREATE TABLE "site_revision" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "record" JSONB,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),
    "actor_kind" TEXT NOT NULL,
    "actor" TEXT,
    "cause" TEXT NOT NULL,
    "why" TEXT,

    CONSTRAINT "site_revision_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "site_revision_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_revision_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_revision_number_counts" CHECK ("number" >= 1),
    CONSTRAINT "site_revision_actor_known" CHECK ("actor_kind" IN ('guest', 'desk', 'manager', 'clock')),
    CONSTRAINT "site_revision_cause_known" CHECK ("cause" IN ('load', 'edit', 'survey', 'import', 'restore', 'copy')),
    CONSTRAINT "site_revision_why_short" CHECK (length("why") <= 2000)
);

CREATE UNIQUE INDEX "site_revision_site_id_number_key" ON "site_revision"("site_id", "number");
CREATE INDEX "site_revision_park_id_at_idx" ON "site_revision"("park_id", "at");

-- The sites that are there already begin with the record they have.
INSERT INTO "site_revision" ("park_id", "site_id", "number", "record", "at", "actor_kind", "cause")
SELECT "park_id", "id", 1, "record", "updated_at", 'clock', 'load' FROM "site";

-- The columns a site is found by follow its record, and its version counts by itself.
CREATE FUNCTION "follow_site_record"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    NEW.label := coalesce(nullif(NEW.record ->> 'label', ''), NEW.site_id);
    NEW.loop := NEW.record ->> 'loop';
    IF TG_OP = 'INSERT' THEN
        NEW.version := 1;
        NEW.weighed_version := 1;
        RETURN NEW;
    END IF;
    NEW.version := OLD.version;
    IF NEW.record IS DISTINCT FROM OLD.record OR (NEW.retired_at IS NULL) <> (OLD.retired_at IS NULL) THEN
        NEW.version := OLD.version + 1;
        NEW.updated_at := clock_timestamp();
    END IF;
    RETURN NEW;
END $$;

CREATE TRIGGER "site_follows_record" BEFORE INSERT OR UPDATE ON "site" FOR EACH ROW EXECUTE FUNCTION "follow_site_record"();

-- Taken out of use only when nobody is on it or is still to come, and no closure is in force. The date is the park's own.
CREATE FUNCTION "keep_site_in_use"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    today DATE := (SELECT (clock_timestamp() AT TIME ZONE coalesce(stay_settings ->> 'zone', 'UTC'))::date FROM park WHERE id = NEW.park_id);
BEGIN
    IF EXISTS (SELECT 1 FROM occupancy WHERE site_id = NEW.id AND upper(nights) > today AND (held_until IS NULL OR held_until > clock_timestamp()))
        OR EXISTS (SELECT 1 FROM stay WHERE site_id = NEW.id AND state = 'arrived') THEN
        -- The name is in the sentence too: the way up loses what is beside it.
        RAISE EXCEPTION 'stays or closures stand on the site (constraint "site_in_use")' USING ERRCODE = 'check_violation', CONSTRAINT = 'site_in_use';
    END IF;
    RETURN NEW;
END $$;

CREATE TRIGGER "site_kept_in_use" BEFORE UPDATE OF "retired_at" ON "site" FOR EACH ROW
    WHEN (OLD.retired_at IS NULL AND NEW.retired_at IS NOT NULL) EXECUTE FUNCTION "keep_site_in_use"();

-- The other way round. The lock waits for one that is just being taken out of use. Only for nights that are new: whoever wants
-- those has the site's lock already, and what merely changes a stay must not begin to wait for it.
CREATE FUNCTION "refuse_site_out_of_use"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    since TIMESTAMPTZ;
BEGIN
    IF TG_OP = 'UPDATE' THEN
        IF NEW.site_id = OLD.site_id AND NEW.nights <@ OLD.nights THEN RETURN NEW; END IF;
    END IF;
    SELECT retired_at INTO since FROM site WHERE id = NEW.site_id FOR SHARE;
    IF since IS NOT NULL THEN
        RAISE EXCEPTION 'the site is out of use (constraint "occupancy_on_site_in_use")' USING ERRCODE = 'check_violation', CONSTRAINT = 'occupancy_on_site_in_use';
    END IF;
    RETURN NEW;
END $$;

CREATE TRIGGER "occupancy_on_site_in_use" BEFORE INSERT OR UPDATE OF "site_id", "nights" ON "occupancy" FOR EACH ROW EXECUTE FUNCTION "refuse_site_out_of_use"();

-- No change without its revision. The transaction says who acts, why, and what brought it (set_config, local to it).
CREATE FUNCTION "write_site_revision"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    kind TEXT := nullif(current_setting('padwright.actor_kind', true), '');
    brought_by TEXT := nullif(current_setting('padwright.cause', true), '');
BEGIN
    IF TG_OP = 'UPDATE' THEN
        IF NEW.version = OLD.version THEN RETURN NULL; END IF;
    END IF;
    IF kind IS NULL THEN
        RAISE EXCEPTION 'a change of a site must say who makes it (constraint "site_revision_has_actor")' USING ERRCODE = 'check_violation', CONSTRAINT = 'site_revision_has_actor';
    END IF;
    INSERT INTO site_revision (park_id, site_id, number, record, actor_kind, actor, cause, why)
    VALUES (NEW.park_id, NEW.id, NEW.version, CASE WHEN NEW.retired_at IS NULL THEN NEW.record END, kind, nullif(current_setting('padwright.actor', true), ''),
            coalesce(brought_by, CASE WHEN TG_OP = 'INSERT' THEN 'load' ELSE 'edit' END), nullif(current_setting('padwright.reason', true), ''));
    RETURN NULL;
END $$;

CREATE TRIGGER "site_revised" AFTER INSERT OR UPDATE ON "site" FOR EACH ROW EXECUTE FUNCTION "write_site_revision"();

CREATE TRIGGER "site_revision_stays_as_it_is" BEFORE UPDATE OR DELETE ON "site_revision" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();

-- Word of it, as of every entry in the audit. The park stands for its sites: thousands may change at once, and the same word is
-- told once a transaction.
CREATE FUNCTION "tell_of_site_revision"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    PERFORM pg_notify('padwright_change', json_build_object('park', NEW.park_id, 'subject', 'site', 'id', NEW.park_id)::text);
    RETURN NULL;
END $$;

CREATE TRIGGER "site_revision_told" AFTER INSERT ON "site_revision" FOR EACH ROW EXECUTE FUNCTION "tell_of_site_revision"();

-- A change of one site that somebody looks at before it is saved, so that its address is short. `base` is the version it
-- began from, null for a new site; `record` is null where the site is to be taken out of use.
CREATE TABLE "site_draft" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    -- The park's own id of the site: a new one has no row yet.
    "site_id" TEXT NOT NULL,
    "base" INTEGER,
    "record" JSONB,
    "cause" TEXT NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "site_draft_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "site_draft_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_draft_cause_known" CHECK ("cause" IN ('edit', 'survey', 'import', 'restore', 'copy')),
    CONSTRAINT "site_draft_record_is_it" CHECK ("record" IS NULL OR "record" ->> 'id' IS NOT DISTINCT FROM "site_id"),
    CONSTRAINT "site_draft_changes_something" CHECK ("base" IS NOT NULL OR "record" IS NOT NULL)
);

CREATE INDEX "site_draft_park_id_at_idx" ON "site_draft"("park_id", "at");

-- A stay that no longer fits on its site because the site changed: for the desk, until it is moved, fits again, or somebody
-- says that they have seen it. `was` and `now` are verdicts, `reasons` what stands in the way now, as data.
CREATE TABLE "site_change_effect" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    -- The revision that did it.
    "number" INTEGER NOT NULL,
    "was" TEXT NOT NULL,
    "now" TEXT NOT NULL,
    "reasons" JSONB NOT NULL DEFAULT '[]',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),
    "seen_at" TIMESTAMPTZ(3),
    "seen_by" TEXT,

    CONSTRAINT "site_change_effect_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "site_change_effect_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_change_effect_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_change_effect_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "site_change_effect_reasons_list" CHECK (jsonb_typeof("reasons") = 'array')
);

-- Two processes that weigh one change tell of a stay once.
CREATE UNIQUE INDEX "site_change_effect_stay_id_site_id_number_key" ON "site_change_effect"("stay_id", "site_id", "number");
CREATE INDEX "site_change_effect_site_id_idx" ON "site_change_effect"("site_id");
CREATE INDEX "site_change_effect_open_idx" ON "site_change_effect"("park_id") WHERE "seen_at" IS NULL;

-- Who was told, and who has seen it, is in the audit with everything else that happens to a stay.
CREATE TRIGGER "site_change_effect_audited" AFTER INSERT OR UPDATE ON "site_change_effect" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
