import { getPark } from "@/lib/store/parks";
import { listSiteRecords } from "@/lib/store/sites";
import { answering } from "../../../answering";
import { failed, json } from "../../../answers";

/** A park's inventory as it came in. */
export const GET = answering(async (_request, { params }: { params: Promise<{ slug: string }> }) => {
  const { slug } = await params;
  if (!(await getPark(slug))) return failed(404, `There is no park "${slug}".`);
  return json({ sites: await listSiteRecords(slug) });
});
