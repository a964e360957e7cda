import { formats, writeInventory, writeStays, type WrittenFile } from "@/lib/exchange";
import { readInventory } from "@/lib/store/inventory";
import type { Manager } from "@/lib/store/site-changes";
import { listStayLines } from "@/lib/store/stays-export";
import { answering } from "@/app/api/answering";
import { staffActorOf } from "../../../../staff-session";

export const dynamic = "force-dynamic";

/** One file of the inventory, by its name. For managers: 403 for the desk, 401 for who is not signed in, 404 where there is no such file. */
export const GET = answering(async (request: Request, { params }: { readonly params: Promise<{ name: string }> }) => {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  if (actor.kind !== "manager") return new Response(null, { status: 403 });
  const { name } = await params, text = await textOf(name, actor);
  if (text === null) return new Response(null, { status: 404 });
  return new Response(text, { headers: { "content-type": typeOf(name), "content-disposition": `attachment; filename="${actor.park}-${name}"`, "cache-control": "no-store" } });
});

async function textOf(name: string, actor: Manager): Promise<string | null> {
  if (name === "stays.csv") return writeStays(await listStayLines(actor));
  const format = formats.find((one) => name.endsWith(`.${one}`) && !(one === "json" && name.endsWith(".geojson")));
  const files: readonly WrittenFile[] = format ? (writeInventory(await readInventory(actor), format) ?? []) : [];
  return files.find((file) => file.name === name)?.text ?? null;
}

function typeOf(name: string): string {
  if (name.endsWith(".csv")) return "text/csv; charset=utf-8";
  return name.endsWith(".geojson") ? "application/geo+json" : "application/json; charset=utf-8";
}
