import { inject } from "vitest";

// Imported before what reads the settings as it is loaded.
process.env["DATABASE_URL"] = inject("databaseUrl");
