-- Who runs a park: accounts, how they sign in, and the one-time links by which they come to be.

CREATE TABLE "staff_account" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "switched_off_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "staff_account_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "staff_account_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "staff_account_role_known" CHECK ("role" IN ('manager', 'desk')),
    -- One person is one address, however they type it.
    CONSTRAINT "staff_account_email_small" CHECK ("email" = lower("email") AND "email" LIKE '%_@_%')
);

CREATE UNIQUE INDEX "staff_account_email_key" ON "staff_account"("email");
-- So that what hangs on an account is of its park.
CREATE UNIQUE INDEX "staff_account_park_id_id_key" ON "staff_account"("park_id", "id");

-- What is asked for at the sign-in. Apart from the account, so that no list of accounts carries it along.
CREATE TABLE "staff_credential" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "provider" TEXT NOT NULL DEFAULT 'credential',
    -- The provider's own name for the person; of a password, the account.
    "subject" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "staff_credential_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "staff_credential_account_fkey" FOREIGN KEY ("park_id", "account_id") REFERENCES "staff_account"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "staff_credential_is_password" CHECK ("provider" = 'credential' AND "subject" = "account_id"::text)
);

CREATE UNIQUE INDEX "staff_credential_account_id_key" ON "staff_credential"("account_id");

CREATE TABLE "staff_session" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "token" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "ip_address" TEXT,
    "user_agent" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "staff_session_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "staff_session_account_fkey" FOREIGN KEY ("park_id", "account_id") REFERENCES "staff_account"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE
);

CREATE UNIQUE INDEX "staff_session_token_key" ON "staff_session"("token");
CREATE INDEX "staff_session_account_id_idx" ON "staff_session"("account_id");
CREATE INDEX "staff_session_expires_at_idx" ON "staff_session"("expires_at");

-- A link that is good for one use: to join with a role, or to set a new password. Whoever has it may, so only its hash is kept.
CREATE TABLE "account_link" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "purpose" TEXT NOT NULL,
    "role" TEXT,
    "account_id" UUID,
    -- Printed at a start, while the park has no manager: the next start ends it.
    "at_start" BOOLEAN NOT NULL DEFAULT false,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "account_link_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "account_link_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "account_link_account_fkey" FOREIGN KEY ("park_id", "account_id") REFERENCES "staff_account"("park_id", "id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "account_link_purpose_whole" CHECK (
        ("purpose" = 'join' AND "role" IN ('manager', 'desk') AND "account_id" IS NULL)
        OR ("purpose" = 'reset' AND "role" IS NULL AND "account_id" IS NOT NULL)
    )
);

CREATE UNIQUE INDEX "account_link_token_hash_key" ON "account_link"("token_hash");
CREATE INDEX "account_link_park_id_idx" ON "account_link"("park_id");
CREATE INDEX "account_link_account_id_idx" ON "account_link"("account_id");

-- How often something was tried since `since`: shared by every process on this database.
CREATE TABLE "rate_limit" (
    "key" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "since" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "rate_limit_pkey" PRIMARY KEY ("key")
);

CREATE INDEX "rate_limit_since_idx" ON "rate_limit"("since");

-- What every process on this database has to know alike and nobody else.
CREATE TABLE "secret" (
    "name" TEXT NOT NULL,
    "value" TEXT NOT NULL,

    CONSTRAINT "secret_pkey" PRIMARY KEY ("name")
);

CREATE TRIGGER "staff_account_audited" AFTER INSERT OR UPDATE ON "staff_account" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();
CREATE TRIGGER "account_link_audited" AFTER INSERT OR UPDATE ON "account_link" FOR EACH ROW EXECUTE FUNCTION "write_audit_entry"();

-- A park that has a manager keeps one. Two who are switched off at once wait for each other at the park's row.
CREATE FUNCTION "keep_a_manager"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF OLD.role <> 'manager' OR OLD.switched_off_at IS NOT NULL THEN RETURN NULL; END IF;
    IF TG_OP = 'UPDATE' AND NEW.role = 'manager' AND NEW.switched_off_at IS NULL AND NEW.park_id = OLD.park_id THEN RETURN NULL; END IF;
    -- Gone with its park.
    PERFORM 1 FROM park WHERE id = OLD.park_id FOR UPDATE;
    IF NOT FOUND THEN RETURN NULL; END IF;
    PERFORM 1 FROM staff_account WHERE park_id = OLD.park_id AND role = 'manager' AND switched_off_at IS NULL;
    IF NOT FOUND THEN
        -- The name is in the sentence too: the way up loses what is beside it.
        RAISE EXCEPTION 'the last manager of a park stays (constraint "park_keeps_a_manager")' USING ERRCODE = 'check_violation', CONSTRAINT = 'park_keeps_a_manager';
    END IF;
    RETURN NULL;
END $$;

CREATE TRIGGER "staff_account_keeps_a_manager" AFTER UPDATE OR DELETE ON "staff_account" FOR EACH ROW EXECUTE FUNCTION "keep_a_manager"();

-- Who is switched off is out at once, on every device, and has no way back in.
CREATE FUNCTION "end_sessions"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.switched_off_at IS NOT NULL AND OLD.switched_off_at IS NULL THEN
        DELETE FROM staff_session WHERE account_id = NEW.id;
        UPDATE account_link SET revoked_at = clock_timestamp() WHERE account_id = NEW.id AND used_at IS NULL AND revoked_at IS NULL;
    END IF;
    RETURN NULL;
END $$;

CREATE TRIGGER "staff_account_switched_off" AFTER UPDATE ON "staff_account" FOR EACH ROW EXECUTE FUNCTION "end_sessions"();
