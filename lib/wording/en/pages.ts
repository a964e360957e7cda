/** Headings, labels and notices of the pages. */
export const pages = {
  product: "Padwright",
  tagline: "Will your rig fit, and where does it stand?",
  skip: "Skip to the answer",
  home: "Check a rig",
  openInterface: "Open interface",
  footer: "Advice from measurements. The person on the ground decides.",
  units: { label: "Units", "ft-in": "Feet and inches", metric: "Meters" },

  /** Why a site stands where it does in the order: what is best about it, and what it costs. */
  order: {
    plenty: "plenty of room",
    room: (room: string) => `${room} of room to spare`,
    tight: (room: string) => `tight, ${room} to spare`,
    noRoom: "tight, nothing to spare",
    run: (service: string, length: string) => `longest run ${length}, for ${service}`,
    noBlocks: "level enough as it is",
    lift: (lift: string) => `${lift} of leveling`,
  },

  cautions: "Before you rely on this",
  error: { title: "That did not work", line: "Something went wrong on our side. What you typed is still in the address; try again.", again: "Try again" },
  notFound: { title: "There is no such page", line: "The address may be mistyped, or the site may have been taken out of the park.", home: "Check a rig" },

  docs: {
    title: "The open interface",
    lead: "Everything the pages know can be asked for by a program. Lengths are millimeters, whatever the reader’s units; sentences in an answer come in the units asked for.",
    machine: "The machine-readable description",
    request: "Request",
    answers: "Answers",
    parameters: "Parameters",
    inPlace: { path: "in the address", query: "in the query", header: "as a header" },
    shapes: "Shapes",
    field: "Field",
    type: "Type",
    meaning: "Meaning",
    optional: "may be left out",
    required: "required",
    example: "Example",
  },
};
