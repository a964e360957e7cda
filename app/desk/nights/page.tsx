import type { Metadata } from "next";
import { staffContext } from "../../manage/context";
import { requireDesk } from "../../staff-session";
import { one, type Params } from "../../components/rig-form/params";
import { unitsOf } from "../../components/rig-form/read";
import { addDays, compareDates, hookupsOf, readDate, type Nights } from "@/lib/stays";
import { getStayContext } from "@/lib/store/park-settings";
import { getBoard } from "@/lib/store/stays-board";
import { catalogueOf } from "@/lib/wording";
import { formatLength } from "@/lib/wording/lengths";
import { layOut } from "./board-data";
import { Closures } from "./closures";
import { Controls } from "./controls";
import { Ledger } from "./ledger";
import { PlainTable } from "./plain-table";
import styles from "./nights.module.css";

const { nights: words, stays: stayWords, staff: { table }, things } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** How many weeks may be looked at, and how wide a night then is (px). */
const zooms: readonly { readonly weeks: number; readonly width: number }[] = [{ weeks: 2, width: 72 }, { weeks: 5, width: 44 }, { weeks: 13, width: 30 }, { weeks: 52, width: 26 }];
const usual = zooms[1]!;

/** Sites by nights: who is where when, moved by hand. */
export default async function NightsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireDesk();
  const params = await searchParams;
  const [context, stay] = await Promise.all([staffContext(), getStayContext(actor.park)]);
  if (!context || !stay) return <main className={styles.page}><h1>{words.heading}</h1><p>{table.noPark}</p></main>;
  const { today } = stay;
  const zoom = zooms.find(({ weeks }) => String(weeks) === one(params.weeks)) ?? usual;
  const from = readDate(one(params.from) ?? "") ?? addDays(today, -1);
  const asTable = one(params.view) === "table";
  const window: Nights = { arrive: from, depart: addDays(from, (asTable ? 2 : zoom.weeks) * 7) };
  const [loop, asked] = [one(params.loop) ?? "", one(params.q) ?? ""];
  const text = asked.trim().toLowerCase();
  const board = await getBoard(actor, actor.park, window);
  const units = unitsOf(params, context.park.units);
  const rigOf = (kind: string, length: number) => `${things.rigKinds[kind as keyof typeof things.rigKinds] ?? kind} ${formatLength(length, units, "nearest")}`;
  const guestsSites = new Set(board.stays.filter(({ guest, reference, plate }) => [guest, reference, plate].some((word) => word?.toLowerCase().includes(text))).map(({ site }) => site));
  const sites = context.surveyed.map(({ site }) => site)
    .filter((site) => (loop === "" || site.loop === loop) && (text === "" || (site.label ?? site.id).toLowerCase().includes(text) || guestsSites.has(site.id)))
    .map((site) => ({ id: site.id, label: site.label ?? site.id, loop: site.loop ?? undefined, hookups: inShort(hookupsOf(site)) }));
  const loopNames = new Map(context.loops.flatMap(({ id, name }) => (name ? [[id, name] as const] : [])));
  const data = layOut(board, sites, loopNames, today, { nameless: words.nameless, rig: ({ rigKind, rigLength }) => rigOf(rigKind, rigLength) });
  return (
    <main className={styles.page}>
      <div className={styles.head}>
        <h1>{words.heading}</h1>
        <p className={styles.lead}>{stayWords.longDay(today)}. {words.lead}</p>
      </div>
      <Controls from={from} today={today} weeks={zoom.weeks} zooms={zooms.map(({ weeks }) => weeks)} loop={loop} text={asked} loops={context.loops} asTable={asTable} step={Math.min(zoom.weeks, 4)} />
      {sites.length === 0 && data.rows.length === 0 ? <p>{words.noSites}</p> : asTable ? <PlainTable board={board} sites={sites} rigOf={rigOf} /> : <Ledger key={`${from} ${zoom.weeks}`} data={data} columnWidth={zoom.width} />}
      {!asTable && <><noscript><p>{words.noScript} <a href={`/desk/nights?view=table&from=${from}`}>{words.asTable}</a></p></noscript><p className={styles.legend}>{words.legend}</p></>}
      <Closures closures={board.closures.filter(({ nights }) => compareDates(nights.depart, today) > 0)} labels={new Map(context.surveyed.map(({ site }) => [site.id, site.label ?? site.id]))} today={today} />
    </main>
  );
}

/** "50 W S": the largest receptacle, water, sewer. */
function inShort({ services, amps }: ReturnType<typeof hookupsOf>): string {
  return [amps ? String(amps) : services.includes("power") ? "P" : "", services.includes("water") ? "W" : "", services.includes("sewer") ? "S" : ""].filter(Boolean).join(" ") || "–";
}

