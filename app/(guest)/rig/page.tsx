import { redirect } from "next/navigation";
import type { Params } from "../../components/rig-form/params";
import { RigForm } from "../../components/rig-form/rig-form";
import { catalogueOf } from "@/lib/wording";
import { askedBy } from "../context";
import { UnitsSwitch } from "../units-switch";
import styles from "../first.module.css";

/** The rig's numbers, to change what was measured. */
export default async function RigPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const asked = await askedBy(await searchParams);
  if (!asked?.form) redirect("/");
  const { form, units } = asked;
  return (
    <main className={styles.main}>
      <h1>{catalogueOf().pages.first.numbers}</h1>
      <UnitsSwitch path="/rig" query={form.query} units={units} />
      <RigForm form={form} />
    </main>
  );
}
