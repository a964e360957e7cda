import { ManagersOnly } from "./components/managers-only/managers-only";

export default function Forbidden() {
  return <ManagersOnly />;
}
