import { afterAll, beforeAll, beforeEach, inject } from "vitest";

/** Gives the store's own client the test database, emptied before each test. Call at the top of a test file. */
export function withStore(): void {
  beforeAll(() => {
    process.env["DATABASE_URL"] = inject("databaseUrl");
  });
  beforeEach(async () => {
    const { client } = await import("@/lib/store/client");
    await client().park.deleteMany();
  });
  afterAll(async () => {
    const { disconnect } = await import("@/lib/store/client");
    await disconnect();
  });
}

export { smallPark } from "./small-park";
