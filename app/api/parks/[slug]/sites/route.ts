import { getPark } from "@/lib/store/parks";
import { listSiteRecords } from "@/lib/store/sites";
import { failed, json } from "../../../answers";

/** A park's inventory as it came in. */
export async function GET(_request: Request, { params }: { params: Promise<{ slug: string }> }): Promise<Response> {
  const { slug } = await params;
  if (!(await getPark(slug))) return failed(404, `There is no park "${slug}".`);
  return json({ sites: await listSiteRecords(slug) });
}
