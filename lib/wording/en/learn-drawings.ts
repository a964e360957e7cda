/** Titles, descriptions and the few words written on the drawings of the pages that explain. */
export const drawingWords = {
  stands: { title: "Many spots on one pad", desc: "A pad seen from above. Dashed outlines show spots that were looked at; a thick one is the best of them, with room to the tree and to the post." },
  above: { title: "What hangs over the rig", desc: "A trailer from the side. A limb hangs over its roof with a gap that stays free. A wire runs higher up with a larger gap.", limb: "limb", wire: "wire", free: "stays free" },
  opens: { title: "Room for what opens", desc: "A trailer from above, its slide and awning out. There is a gap between the slide and a post, and a wide one between the awning and a fire ring.", slide: "slide", awning: "awning", post: "post", fire: "fire ring", steps: "steps" },
  ground: { title: "What has to stand on the pad", desc: "A pad from above with a trailer on it. Its tires and jacks are inside the edge of the pad. The front stays behind the edge of the road. A rock lies under the floor, away from the tires.", pad: "pad", road: "road", tires: "tires", jack: "jack", rock: "low rock" },
  run: { title: "How a run is counted", desc: "A cord from the side: down from the rig to the ground, along the ground to the post, and up to the socket.", drop: "drop", path: "path", climb: "climb", cord: "power cord" },
  sewer: { title: "Downhill, and not", desc: "Two drawings from the side. Above, the hose runs downhill from the rig to the drain all the way. Below, the drain lies up a bank, and the hose would run uphill.", yes: "Runs downhill: good", no: "Drain too high: no", drain: "drain", outlet: "outlet" },
  power: { title: "What runs at once on a 30 A plug", desc: "Two bars. The air conditioner and the coffee maker together stay under the limit for hours. With the microwave as well they go over it.", air: "air cond.", coffee: "coffee", microwave: "microwave", limit: (amps: number) => `${amps} A for hours`, amps: (amps: number) => `${amps} A` },
  level: { title: "Level on a slope", desc: "A trailer from behind on sloping ground. Blocks under its low wheel make the floor level.", level: "level", blocks: "blocks", lift: "lift" },

  length: { title: "Length and hitch", desc: "A trailer from the side. One line runs from the coupler to the rear bumper, a shorter one from the coupler to the front wall.", length: "length", hitch: "hitch" },
  height: { title: "Height", desc: "A trailer from behind. A level board lies on the tallest thing on the roof; the tape runs from its end down to the ground.", board: "board", height: "height" },
  width: { title: "Width", desc: "A trailer from behind, with a line from wall to wall at its widest.", width: "width" },
  slide: { title: "Slides and awning", desc: "A trailer from above with a slide out. Lines run from the rear wall to where the slide starts and to where it ends, and from the wall out to its face.", start: "start", end: "end", out: "out", rear: "rear", front: "front" },
  wheels: { title: "Wheels and jacks", desc: "A trailer from above. Lines run from the rear wall to the middle of a wheel and of a jack, and across from wheel to wheel.", wheel: "wheel", jack: "jack", across: "across" },
  inlets: { title: "Where cord and hoses plug in", desc: "A trailer from its left side, the front at the left. A line runs from the rear wall to an inlet, another from the ground up to it.", along: "from the rear", up: "up" },
  cord: { title: "A cord laid straight", desc: "A cord on the ground from plug to plug, with a line from end to end.", length: "end to end" },
  blocks: { title: "Blocks, stacked", desc: "A wheel on a stack of blocks, with a line for the height of the stack.", lift: "height" },

  siteFrame: { title: "The frame of a site", desc: "A pad from above, the road slantwise at the bottom. From the middle of the pad’s entry edge, x runs into the site and y to the left.", pad: "pad", lot: "lot", road: "road edge", origin: "origin" },
  rigFrame: { title: "The frame of a rig", desc: "A trailer from above and from its right side. u runs forward from the middle of the rear wall, v to the left, w up from the ground. A slide has a span along u and a depth out from the wall.", span: "span", depth: "depth", front: "front", height: "height", floor: "floor" },
  headings: { title: "Tail-in and nose-in", desc: "Two pads from above, the road at the bottom. On the left the rig is backed in, its front to the road. On the right it is driven in, its front away from the road.", tailIn: "tail-in", noseIn: "nose-in", road: "road" },
  heights: { title: "When heights meet", desc: "A box from the side under a crown and over a rock. Above its top come the lift of leveling and the room for limbs. Below its underside comes the room underneath.", part: "part", lift: "lift", above: "room above", below: "room below", crown: "crown", rock: "rock" },
};
