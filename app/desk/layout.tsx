import type { ReactNode } from "react";
import { StaffNav } from "../components/staff-nav/staff-nav";

export default function DeskLayout({ children }: { readonly children: ReactNode }) {
  return <><StaffNav />{children}</>;
}
