import postgres from "postgres";
import { describe, expect, inject, it } from "vitest";
import { client, connect } from "@/lib/store/client";
import { toStoreError, type StoreError } from "@/lib/store/errors";
import { withStore } from "./client";

withStore();

async function refused(work: Promise<unknown>): Promise<StoreError> {
  return work.then(
    () => Promise.reject(new Error("it was not refused")),
    (error: unknown) => toStoreError(error),
  );
}

const park = (slug: string) => ({ slug, name: "A park", record: { slug } });

describe("toStoreError, for what Prisma throws", () => {
  it("a second park of the same slug is taken", async () => {
    await client().park.create({ data: park("one") });
    expect(await refused(client().park.create({ data: park("one") }))).toMatchObject({ kind: "taken", constraint: "park_slug_key" });
  });

  it("a slug of the wrong form is refused by the database, whatever the code lets through", async () => {
    expect(await refused(client().park.create({ data: park("Not A Slug") }))).toMatchObject({ kind: "refused", constraint: "park_slug_form" });
  });

  it("a record that is another site's than its columns say is refused", async () => {
    const { id: parkId } = await client().park.create({ data: park("one") });
    const data = { parkId, siteId: "a01", label: "A-01", position: 0, record: { id: "a02" } };
    expect(await refused(client().site.create({ data }))).toMatchObject({ kind: "refused", constraint: "site_record_is_it" });
  });

  it("a site of a park that is not there is missing its park", async () => {
    const data = { parkId: "00000000-0000-4000-8000-000000000000", siteId: "a01", label: "A-01", position: 0, record: { id: "a01" } };
    expect(await refused(client().site.create({ data }))).toMatchObject({ kind: "missing", constraint: "site_park_id_fkey" });
  });

  it("a change to what is not there is missing it", async () => {
    expect(await refused(client().park.update({ where: { slug: "none" }, data: { name: "x" } }))).toMatchObject({ kind: "missing" });
  });

  it("a server that does not answer is unreachable", async () => {
    const nobody = connect("postgresql://padwright:x@127.0.0.1:1/padwright");
    expect(await refused(nobody.park.count())).toMatchObject({ kind: "unreachable" });
    await nobody.$disconnect();
  });

  it("a wrong password is unreachable", async () => {
    const address = new URL(inject("databaseUrl"));
    address.username = "nobody_of_this_name";
    const nobody = connect(address.href);
    expect(await refused(nobody.park.count())).toMatchObject({ kind: "unreachable" });
    await nobody.$disconnect();
  });
});

describe("toStoreError, for what the driver throws", () => {
  it("an overlap of an exclusion constraint is told from a repeated key", async () => {
    const sql = postgres(inject("databaseUrl"), { max: 1 });
    const work = sql.begin(async (tx) => {
      await tx`create temp table taken (nights daterange, exclude using gist (nights with &&)) on commit drop`;
      await tx`insert into taken values ('[2026-06-01,2026-06-03)'), ('[2026-06-02,2026-06-04)')`;
    });
    expect(await refused(work)).toMatchObject({ kind: "overlap", constraint: "taken_nights_excl" });
    await sql.end();
  });

  it("keeps what it cannot name, with the database's own sentence", async () => {
    const sql = postgres(inject("databaseUrl"), { max: 1 });
    expect(await refused(sql`select 1 / 0`)).toMatchObject({ kind: "unknown", message: "the database refused: division by zero" });
    await sql.end();
  });

  it("passes its own kind through unchanged", () => {
    const error = toStoreError(new Error("odd"));
    expect(toStoreError(error)).toBe(error);
  });
});
