import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Cautions } from "../../../components/cautions/cautions";
import { LivePage } from "../../../components/live/live-page";
import { Plan } from "../../../components/plan/plan";
import { VerdictMark } from "../../../components/verdict/mark";
import { GettingInSection } from "../../../components/way-player/getting-in-section";
import { requireDesk } from "../../../staff-session";
import { ChangedSites } from "../../changed-sites";
import { Edits, Guest, History, Loans, Money, Moving, Next, Notes, Private, Together } from "./parts";
import { readStayPage, type StayPageData } from "./read-stay";
import { bringSentence, catalogueOf, sentence, unbroken } from "@/lib/wording";
import { arrival } from "@/lib/wording/en/arrival";
import { formatLength } from "@/lib/wording/lengths";
import styles from "../stays.module.css";

const { deskStays: { stay: words, today: todayWords }, stays: stayWords, verdicts, things } = catalogueOf();

interface PageProps {
  readonly params: Promise<{ id: string }>;
}

export const metadata: Metadata = { title: words.facts, robots: { index: false } };

/** Everything the desk knows of one stay, and all that can be done with it. */
export default async function StayPage({ params }: PageProps) {
  const { actor } = await requireDesk();
  const data = await readStayPage(actor, (await params).id);
  if (!data) notFound();
  const { stay } = data;
  return (
    <main className={styles.page}>
      <p><a href="/desk">{words.back}</a></p>
      <LivePage>
        <div className={styles.head}><h1>{stay.erased ? words.erased : stay.guest?.name ?? words.nameless}</h1><p className={styles.state}>{stayWords.states[stay.state]}</p></div>
        <div className={styles.columns}>
          <div><Facts data={data} /><Next data={data} /><Money data={data} /><Notes data={data} /><Loans data={data} /><Guest data={data} /><Together data={data} /><Private data={data} /></div>
          <div><ChangedSites effects={data.changed} park={data.park} zone={data.context.settings.zone} own /><OnSite data={data} /><Moving data={data} /><Edits data={data} /></div>
        </div>
        {data.site && data.result && <GettingInSection site={data.site} rig={stay.rig} result={data.result} policy={data.park.policy} units={data.park.units} />}
        <History data={data} />
      </LivePage>
      <Cautions />
    </main>
  );
}

function Facts({ data: { stay, park, context, labelOf } }: { readonly data: StayPageData }) {
  const { adults, children, pets } = stay.rig.party;
  const overall = stay.rig.body.length + (stay.rig.hitch?.length ?? 0);
  return (
    <section aria-labelledby="facts">
      <h2 id="facts">{words.facts}</h2>
      <dl>
        <dt>{words.reference}</dt><dd><strong>{stay.reference}</strong></dd>
        <dt>{words.nights}</dt><dd>{stayWords.span(stay.nights)}</dd>
        <dt>{words.site}</dt><dd>{stay.site === null ? <a href="#move">{todayWords.assign}</a> : <a href={`/manage/sites/${stay.site}`}>{labelOf(stay.site)}</a>}{stay.siteChosen && <> {words.chosen}</>}{stay.override && <> {words.override(verdicts[stay.override.verdict].label.toLowerCase(), stay.override.why)}</>}</dd>
        <dt>{words.rig}</dt><dd>{things.rigKinds[stay.rig.kind]}, {formatLength(overall, park.units, "nearest")}</dd>
        <dt>{words.party}</dt><dd>{words.party2(adults, children, pets)}</dd>
        {stay.guest && !stay.erased && <><dt>{words.contact}</dt><dd>{stay.guest.phone && <a href={`tel:${stay.guest.phone.replace(/[^\d+]/g, "")}`}>{stay.guest.phone}</a>} {stay.guest.email && <a href={`mailto:${stay.guest.email}`}>{stay.guest.email}</a>}</dd></>}
        {stay.guest?.plate && <><dt>{words.plate}</dt><dd>{stay.guest.plate}</dd></>}
        {stay.note && <><dt>{words.note}</dt><dd>{stay.note}</dd></>}
        {stay.until !== null && <><dt>{words.until}</dt><dd>{timeOf(stay.until, context.settings.zone)}</dd></>}
        {stay.outcome && <><dt>{catalogueOf().deskStays.outcome.label}</dt><dd>{stayWords.outcomes[stay.outcome.how]}{stay.outcome.note && `: ${stay.outcome.note}`}</dd></>}
      </dl>
    </section>
  );
}

function timeOf(at: number, timeZone: string): string {
  return new Date(at).toLocaleString("en-US", { month: "short", day: "numeric", hour: "numeric", minute: "2-digit", timeZone });
}

function OnSite({ data: { stay, site, result, park } }: { readonly data: StayPageData }) {
  if (!site || !result) return <section><h2>{words.onSite}</h2><p>{words.noFit}</p></section>;
  const [reasons, bring] = [result.reasons.map((reason) => sentence(reason, site, stay.rig, park.units, result)), result.bring.map((item) => bringSentence(item, stay.rig, park.units))];
  return (
    <section aria-labelledby="on-site">
      <h2 id="on-site">{words.onSite}</h2>
      <p><VerdictMark verdict={result.verdict} /> <strong>{verdicts[result.verdict].label}</strong></p>
      {reasons.length > 0 && <ul>{[...new Set(reasons)].map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>}
      {bring.length > 0 && <><h3>{words.bring}</h3><ul>{[...new Set(bring)].map((line) => <li key={line}>{unbroken(line)}</li>)}</ul></>}
      {result.pose && <p><a href={`/desk/stays/${stay.id}/card`}>{arrival.page}</a></p>}
      <div className={styles.plan}><Plan site={site} rig={stay.rig} result={result} units={park.units} /></div>
    </section>
  );
}
