-- A park, its measured sites and the rigs it keeps at hand. Every table carries its park, so that a group of parks
-- can be spread over servers by it.

CREATE TABLE "park" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "slug" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "units" TEXT NOT NULL DEFAULT 'ft-in',
    "policy" JSONB NOT NULL DEFAULT '{}',
    "record" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "park_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "park_slug_form" CHECK ("slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
    CONSTRAINT "park_units_known" CHECK ("units" IN ('ft-in', 'metric')),
    CONSTRAINT "park_policy_object" CHECK (jsonb_typeof("policy") = 'object'),
    CONSTRAINT "park_record_is_it" CHECK ("record" ->> 'slug' IS NOT DISTINCT FROM "slug")
);

CREATE UNIQUE INDEX "park_slug_key" ON "park"("slug");

CREATE TABLE "site" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "site_id" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "loop" TEXT,
    "record" JSONB NOT NULL,
    "measured_on" DATE,
    "position" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "site_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "site_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    -- The record and the columns it is found by cannot tell of two different sites.
    CONSTRAINT "site_record_is_it" CHECK ("record" ->> 'id' IS NOT DISTINCT FROM "site_id")
);

CREATE UNIQUE INDEX "site_park_id_site_id_key" ON "site"("park_id", "site_id");
CREATE INDEX "site_park_id_position_idx" ON "site"("park_id", "position");

CREATE TABLE "rig" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "rig_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "note" TEXT,
    "record" JSONB NOT NULL,
    "position" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "rig_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "rig_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "rig_record_is_it" CHECK ("record" ->> 'id' IS NOT DISTINCT FROM "rig_id")
);

CREATE UNIQUE INDEX "rig_park_id_rig_id_key" ON "rig"("park_id", "rig_id");
CREATE INDEX "rig_park_id_position_idx" ON "rig"("park_id", "position");
