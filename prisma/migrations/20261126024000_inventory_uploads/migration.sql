-- Files that somebody sent to be read into the inventory. What they would do is looked at on a page of its own before it is done, by
-- whichever process answers, so they are kept until then; of one that was read in the outcome stays, and its files go.

CREATE TABLE "inventory_upload" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "park_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),
    -- Whether what the files do not name stays, or is taken out.
    "missing" TEXT NOT NULL,
    -- [{ "name", "base64" }]: the bytes as they came, whatever they are, since what is wrong with them is told on that page too.
    "files" JSONB NOT NULL,
    "done_at" TIMESTAMPTZ(3),
    -- What was added, changed and removed.
    "outcome" JSONB,

    CONSTRAINT "inventory_upload_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "inventory_upload_park_id_fkey" FOREIGN KEY ("park_id") REFERENCES "park"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "inventory_upload_missing_known" CHECK ("missing" IN ('keep', 'remove')),
    CONSTRAINT "inventory_upload_files_list" CHECK (jsonb_typeof("files") = 'array'),
    CONSTRAINT "inventory_upload_done_whole" CHECK (("done_at" IS NULL) = ("outcome" IS NULL)),
    CONSTRAINT "inventory_upload_done_empty" CHECK ("done_at" IS NULL OR jsonb_array_length("files") = 0)
);

CREATE INDEX "inventory_upload_park_id_at_idx" ON "inventory_upload"("park_id", "at");
