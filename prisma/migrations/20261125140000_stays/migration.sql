-- Stays: who has which site on which night, what was agreed to, and who changed what.
--
-- Rules that must hold whatever the code does are here: no two occupants of one site on one night (occupancy), no change
-- without its entry (audit_entry), no agreed price changed afterwards.

-- Gives = on a uuid to the constraint over (site, nights). Comes with PostgreSQL; the owner of a database may create it.
CREATE EXTENSION IF NOT EXISTS btree_gist;

ALTER TABLE "park"
    ADD COLUMN "stay_settings" JSONB NOT NULL DEFAULT '{}',
    ADD CONSTRAINT "park_stay_settings_object" CHECK (jsonb_typeof("stay_settings") = 'object');

-- So that a stay or closure can only be on a site of its own park.
CREATE UNIQUE INDEX "site_park_id_id_key" ON "site"("park_id", "id");

CREATE TABLE "stay" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "arrive" DATE NOT NULL,
    "depart" DATE NOT NULL,
    "site_id" UUID,
    "site_chosen" BOOLEAN NOT NULL DEFAULT false,
    "wanted" JSONB NOT NULL DEFAULT '{}',
    "rig" JSONB NOT NULL,
    "guest_name" TEXT,
    "guest_email" TEXT,
    "guest_phone" TEXT,
    "plate" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "held_until" TIMESTAMPTZ(3),
    "arrived_at" TIMESTAMPTZ(3),
    "departed_at" TIMESTAMPTZ(3),
    -- Left before the departure day: the nights from here on are free again.
    "freed_from" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stay_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "stay_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    -- A site with stays is not deleted. Not RESTRICT: a whole park may go, its sites and stays with it.
    CONSTRAINT "stay_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE NO ACTION ON UPDATE CASCADE,
    CONSTRAINT "stay_state_known" CHECK ("state" IN ('requested', 'held', 'booked', 'arrived', 'departed', 'cancelled', 'no-show')),
    CONSTRAINT "stay_has_nights" CHECK ("depart" > "arrive" AND "depart" - "arrive" <= 400),
    CONSTRAINT "stay_hold_ends" CHECK (CASE "state" WHEN 'held' THEN "held_until" IS NOT NULL WHEN 'requested' THEN true ELSE "held_until" IS NULL END),
    CONSTRAINT "stay_chosen_has_site" CHECK (NOT "site_chosen" OR "site_id" IS NOT NULL),
    CONSTRAINT "stay_arrived_has_site" CHECK ("state" NOT IN ('arrived', 'departed') OR "site_id" IS NOT NULL),
    -- Only a hold, while the form is filled in, may be nobody's yet.
    CONSTRAINT "stay_has_guest" CHECK ("state" IN ('held', 'cancelled') OR "guest_name" IS NOT NULL),
    CONSTRAINT "stay_freed_within" CHECK ("freed_from" IS NULL OR ("state" = 'departed' AND "freed_from" >= "arrive" AND "freed_from" < "depart")),
    CONSTRAINT "stay_records_objects" CHECK (jsonb_typeof("rig") = 'object' AND jsonb_typeof("wanted") = 'object')
);

CREATE UNIQUE INDEX "stay_park_id_reference_key" ON "stay"("park_id", "reference");
-- The board and the day's lists: what has not left before the window begins.
CREATE INDEX "stay_park_id_depart_idx" ON "stay"("park_id", "depart");
CREATE INDEX "stay_site_id_idx" ON "stay"("site_id");

CREATE TABLE "closure" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "starts" DATE NOT NULL,
    "ends" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "lifted_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "closure_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "closure_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "closure_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE NO ACTION ON UPDATE CASCADE,
    CONSTRAINT "closure_has_nights" CHECK ("ends" > "starts")
);

CREATE INDEX "closure_park_id_ends_idx" ON "closure"("park_id", "ends");
CREATE INDEX "closure_site_id_idx" ON "closure"("site_id");

-- Who has a site on which nights: one row for every stay that occupies one and for every closure in force. Written by the
-- triggers below alone, so that it cannot disagree with them.
CREATE TABLE "occupancy" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "nights" DATERANGE NOT NULL,
    "stay_id" UUID,
    "closure_id" UUID,
    -- After this it stands in nobody's way, and goes when somebody wants the night. Null: it does not run out.
    "held_until" TIMESTAMPTZ(3),

    CONSTRAINT "occupancy_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "occupancy_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "occupancy_site_fkey" FOREIGN KEY ("park_id", "site_id") REFERENCES "site"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "occupancy_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "occupancy_closure_id_fkey" FOREIGN KEY ("closure_id") REFERENCES "closure"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "occupancy_one_occupant" CHECK (num_nonnulls("stay_id", "closure_id") = 1),
    CONSTRAINT "occupancy_nights_bounded" CHECK (NOT isempty("nights") AND NOT lower_inf("nights") AND NOT upper_inf("nights")),
    -- The rule of the whole: no two occupants of one site on one night. Ranges end before the departure day, so leaving
    -- and arriving on one day do not meet.
    CONSTRAINT "occupancy_one_a_night" EXCLUDE USING gist ("site_id" WITH =, "nights" WITH &&)
);

CREATE UNIQUE INDEX "occupancy_stay_id_key" ON "occupancy"("stay_id");
CREATE UNIQUE INDEX "occupancy_closure_id_key" ON "occupancy"("closure_id");
-- A whole park's window of nights.
CREATE INDEX "occupancy_park_id_nights_idx" ON "occupancy" USING gist ("park_id", "nights");

CREATE FUNCTION "occupy_for_stay"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.site_id IS NULL OR NEW.state IN ('cancelled', 'no-show') OR NEW.freed_from = NEW.arrive THEN
        DELETE FROM occupancy WHERE stay_id = NEW.id;
        RETURN NULL;
    END IF;
    UPDATE occupancy
        SET site_id = NEW.site_id, nights = daterange(NEW.arrive, coalesce(NEW.freed_from, NEW.depart)), held_until = NEW.held_until
        WHERE stay_id = NEW.id;
    IF NOT FOUND THEN
        INSERT INTO occupancy (park_id, site_id, nights, stay_id, held_until)
        VALUES (NEW.park_id, NEW.site_id, daterange(NEW.arrive, coalesce(NEW.freed_from, NEW.depart)), NEW.id, NEW.held_until);
    END IF;
    RETURN NULL;
END $$;

CREATE TRIGGER "stay_occupies"
    AFTER INSERT OR UPDATE OF "state", "site_id", "arrive", "depart", "freed_from", "held_until" ON "stay"
    FOR EACH ROW EXECUTE FUNCTION "occupy_for_stay"();

CREATE FUNCTION "occupy_for_closure"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.lifted_at IS NOT NULL THEN
        DELETE FROM occupancy WHERE closure_id = NEW.id;
        RETURN NULL;
    END IF;
    UPDATE occupancy SET site_id = NEW.site_id, nights = daterange(NEW.starts, NEW.ends) WHERE closure_id = NEW.id;
    IF NOT FOUND THEN
        INSERT INTO occupancy (park_id, site_id, nights, closure_id) VALUES (NEW.park_id, NEW.site_id, daterange(NEW.starts, NEW.ends), NEW.id);
    END IF;
    RETURN NULL;
END $$;

CREATE TRIGGER "closure_occupies"
    AFTER INSERT OR UPDATE OF "site_id", "starts", "ends", "lifted_at" ON "closure"
    FOR EACH ROW EXECUTE FUNCTION "occupy_for_closure"();

-- A statement of its own has depth 1 here; one of a trigger or of a deletion passed down has more.
CREATE FUNCTION "refuse_by_hand"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF pg_trigger_depth() < 2 THEN
        RAISE EXCEPTION '% is not written by hand', TG_TABLE_NAME USING ERRCODE = 'check_violation', CONSTRAINT = TG_TABLE_NAME || '_by_trigger_alone';
    END IF;
    RETURN coalesce(NEW, OLD);
END $$;

CREATE TRIGGER "occupancy_by_trigger_alone"
    BEFORE INSERT OR UPDATE OR DELETE ON "occupancy"
    FOR EACH ROW EXECUTE FUNCTION "refuse_by_hand"();

-- What a park asks for. Saving rates adds a card; the one with the largest number is in force.
CREATE TABLE "rate_card" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "record" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "rate_card_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "rate_card_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "rate_card_number_counts" CHECK ("number" >= 1)
);

CREATE UNIQUE INDEX "rate_card_park_id_number_key" ON "rate_card"("park_id", "number");

-- A price that was agreed to: the first of a stay, and one for each time nights were added.
CREATE TABLE "stay_quote" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    "record" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stay_quote_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "stay_quote_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_quote_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE
);

CREATE INDEX "stay_quote_stay_id_idx" ON "stay_quote"("stay_id");

-- Money that changed hands elsewhere, as somebody noted it. Paid back is below zero. No card data, ever.
CREATE TABLE "stay_payment" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    "amount" BIGINT NOT NULL,
    "currency" TEXT NOT NULL,
    "purpose" TEXT NOT NULL,
    "means" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stay_payment_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "stay_payment_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_payment_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_payment_is_some" CHECK ("amount" <> 0),
    CONSTRAINT "stay_payment_purpose_known" CHECK ("purpose" IN ('deposit', 'stay', 'refund')),
    CONSTRAINT "stay_payment_currency_form" CHECK ("currency" ~ '^[A-Z]{3}$')
);

CREATE INDEX "stay_payment_stay_id_idx" ON "stay_payment"("stay_id");

-- A guest's private links. The token itself is never stored.
CREATE TABLE "stay_link" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "stay_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "stay_link_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "stay_link_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_link_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "stay_link_hashed" CHECK ("token_hash" ~ '^[0-9a-f]{64}$')
);

CREATE UNIQUE INDEX "stay_link_token_hash_key" ON "stay_link"("token_hash");
CREATE INDEX "stay_link_stay_id_idx" ON "stay_link"("stay_id");

-- A request that carries a key is done once, however often it is sent.
CREATE TABLE "idempotency_key" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "request_hash" TEXT NOT NULL,
    "stay_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotency_key_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "idempotency_key_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "idempotency_key_stay_id_fkey" FOREIGN KEY ("stay_id") REFERENCES "stay"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "idempotency_key_form" CHECK (length("key") BETWEEN 1 AND 200)
);

CREATE UNIQUE INDEX "idempotency_key_park_id_key_key" ON "idempotency_key"("park_id", "key");

-- Who changed what, when, from what, to what. Of a change, only the columns that changed; of something new, all of them.
CREATE TABLE "audit_entry" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),
    "actor_kind" TEXT NOT NULL,
    "actor" TEXT,
    "reason" TEXT,
    "subject" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "before" JSONB,
    "after" JSONB NOT NULL,

    CONSTRAINT "audit_entry_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "audit_entry_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "audit_entry_actor_known" CHECK ("actor_kind" IN ('guest', 'desk', 'manager', 'clock'))
);

CREATE INDEX "audit_entry_subject_id_at_idx" ON "audit_entry"("subject_id", "at");
CREATE INDEX "audit_entry_park_id_at_idx" ON "audit_entry"("park_id", "at");

-- The transaction says who acts and why (set_config, local to it). One that does not is refused.
CREATE FUNCTION "write_audit_entry"() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    kind TEXT := nullif(current_setting('padwright.actor_kind', true), '');
    was JSONB := CASE WHEN TG_OP = 'UPDATE' THEN to_jsonb(OLD) END;
    now_is JSONB := to_jsonb(NEW);
BEGIN
    IF kind IS NULL THEN
        RAISE EXCEPTION 'a change of % must say who makes it', TG_TABLE_NAME USING ERRCODE = 'check_violation', CONSTRAINT = 'audit_entry_has_actor';
    END IF;
    IF TG_OP = 'UPDATE' THEN
        IF was = now_is THEN RETURN NULL; END IF;
        SELECT jsonb_object_agg(key, value), jsonb_object_agg(key, now_is -> key) INTO was, now_is
            FROM jsonb_each(was) WHERE value IS DISTINCT FROM now_is -> key;
    END IF;
    INSERT INTO audit_entry (park_id, actor_kind, actor, reason, subject, subject_id, before, after)
    VALUES (NEW.park_id, kind, nullif(current_setting('padwright.actor', true), ''), nullif(current_setting('padwright.reason', true), ''),
            TG_TABLE_NAME, NEW.id, was, now_is);
    RETURN NULL;
END $$;

CREATE TRIGGER "stay_audited" AFTER INSERT OR UPDATE ON "stay" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "closure_audited" AFTER INSERT OR UPDATE ON "closure" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "rate_card_audited" AFTER INSERT OR UPDATE ON "rate_card" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "stay_quote_audited" AFTER INSERT OR UPDATE ON "stay_quote" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "stay_payment_audited" AFTER INSERT OR UPDATE ON "stay_payment" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "stay_link_audited" AFTER INSERT OR UPDATE ON "stay_link" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();

-- What is only ever added to, and goes only with its park.
CREATE FUNCTION "refuse_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF TG_OP = 'UPDATE' OR pg_trigger_depth() < 2 THEN
        RAISE EXCEPTION '% is not changed afterwards', TG_TABLE_NAME USING ERRCODE = 'check_violation', CONSTRAINT = TG_TABLE_NAME || '_stays_as_it_is';
    END IF;
    RETURN OLD;
END $$;

CREATE TRIGGER "rate_card_stays_as_it_is" BEFORE UPDATE OR DELETE ON "rate_card" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
CREATE TRIGGER "stay_quote_stays_as_it_is" BEFORE UPDATE OR DELETE ON "stay_quote" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
CREATE TRIGGER "stay_payment_stays_as_it_is" BEFORE UPDATE OR DELETE ON "stay_payment" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
CREATE TRIGGER "audit_entry_stays_as_it_is" BEFORE UPDATE OR DELETE ON "audit_entry" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
-- Cancelled, not deleted; lifted, not deleted.
CREATE TRIGGER "stay_stays" BEFORE DELETE ON "stay" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
CREATE TRIGGER "closure_stays" BEFORE DELETE ON "closure" FOR EACH ROW EXECUTE FUNCTION "refuse_change"();
