/** The list of pages from which a park is run. */
export const managePark = {
  title: "Running the park",
  nav: "The park",
  lead: "What the park charges, what it asks of a fit, who works here, and what leaves the park by mail or calendar.",
  entries: {
    rates: { name: "Rates", about: "What a stay costs: seasons, hookups, length, extras, fees, taxes and the deposit." },
    unmet: { name: "Requests that found nothing", about: "What guests looked for in vain, what stood in the way, and who wants to be told." },
    map: { name: "Where the sites lie", about: "Drag, turn and type each site’s place on the park’s map. Each site’s plan is edited from its own page." },
    guests: { name: "Guests’ data", about: "Find what the park keeps of a guest, hand it out, or erase it." },
    survey: { name: "Survey", about: "What of each site is measured, a guess or missing, what is due, and measuring on the phone." },
    fieldSheets: { name: "Field sheets", about: "Paper to measure a site, or a whole loop, with a tape, a level and a pole." },
    inventory: { name: "Inventory, in and out", about: "Sites, obstacles, hookups and rigs as files: for a spreadsheet, for a map, or whole. What files would change is shown before they are read in." },
    settings: { name: "Settings", about: "What a fit needs, how stays are taken, house rules, canceling and lending; what a change would do, and what was changed before." },
    mail: { name: "Mail to guests", about: "What waits to be sent, what could not be, and what went." },
    calendars: { name: "Calendars", about: "Nights that other places sell: theirs read in, yours handed out, and what both took." },
    accounts: { name: "Accounts", about: "Who may sign in, and as what." },
  },
};
