import type { ReactNode } from "react";
import { StaffNav } from "../components/staff-nav/staff-nav";
import { requireDesk } from "../staff-session";
import { FindKey } from "./find/find-key";

/** Nobody is let in who is not signed in. Pages and actions ask again: a layout alone guards nothing. */
export default async function DeskLayout({ children }: { readonly children: ReactNode }) {
  await requireDesk();
  return <><StaffNav /><FindKey />{children}</>;
}
