import { staffDesk } from "./staff-desk";
import { staffSite } from "./staff-site";
import { staffTable } from "./staff-table";

/** What those who run the park read: the way between their pages, the table of sites, one site, the desk. */
export const staff = {
  nav: {
    about: "For staff",
    label: "Staff pages",
    sites: "Sites",
    fits: "Rigs and sites",
    link: "For staff",
  },
  table: staffTable,
  site: staffSite,
  desk: staffDesk,
};
