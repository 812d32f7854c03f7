import type { SimpleKind } from '../../spec/index.ts';

export const words = (text: string) => new Set(text.split(/\s+/));

/** What is named by its size: a quantity before it tells which one, not what to set. */
const TOOLS = words(`socket sockets spanner spanners wrench wrenches key keys ratchet ratchets bit bits driver drivers
  drill drills tap taps pitch die dies punch punches drift drifts reamer reamers chisel crowfoot adapter adaptor adapters extension
  extensions feeler feelers blade blades shim shims gauge gauges micrometer mic caliper calliper calipers vernier rule ruler tape
  hammer mallet file grinder breaker puller jack jacks stand stands hoist vice vise clamp clamps press pliers pick hone
  bolt bolts screw screws nut nuts stud studs capscrew capscrews setscrew fastener fasteners washer washers dowel dowels
  rivet rivets thread threads end ends hex hexagon allen torx head heads flats hole holes hose hoses pipe pipes tube tubes tubing
  wire wires cable cables cord cords rod rods pin pins bearing bearings seal o-ring chain chains compressor
  hub hubs axle axles spindle spindles spacer spacers sleeve sleeves bush bushes bushing bushings collar collars steerer headset
  seatpost handlebar handlebars circlip circlips nail nails brush brushes plug plugs bar bars cutter cutters board boards
  fork forks shock shocks stem stems pilot pilots collet collets arbor arbors chuck chucks router routers mower mowers conduit dado
  twin film box boxes shank knife knives shanks planer jointer belt belts ladder pitch gauge nozzle nozzles chain saw saws copper ply plywood mdf oak line rope string cord bead bore sheet steel glass poly bsp npt branch tee tees elbow coupling fitting fittings knockout knockouts roundover`);
const WHEELS = words('wheel wheels rim rims tyre tyres tire tires disc discs rotor rotors screen plate plates');
const DRIVES = words('drive drives sq square');
const CONTAINERS =
  words(`bottle bottles can cans jug jugs jar jars tub tubs tube tubes tin tins pack packs packet packets bag
  bags bucket buckets container containers cartridge cartridges drum drums pot pots syringe syringes canister tank tanks
  sachet sachets spray cup cups tray pan beaker beakers flask flasks funnel pail carton cartons box boxes jerrycan keg glass`);
const ELECTRIC =
  words(`battery batteries system systems socket bulb bulbs lamp lamps light lights supply charger chargers
  outlet circuits circuit circuits fuse fuses tester relay relays adapter feed accessory starter bike motor line rail coil coils horn
  breaker breakers switch switches resistor resistors capacitor capacitors element elements tool tools drill drills saw saws appliance
  appliances machine machines connection horns fan fans pump pumps regulator rectifier alternator generator lead leads heater heaters solenoid source plug pack packs cell cells`);
const ENGINES =
  words(`engine engines bike bikes motor motors motorcycle motorcycles single singles twin twins triple four scooter
  scooters machine machines model models class mill job lump moped v-twin parallel saw saws chainsaw chainsaws mower mowers trimmer trimmers tiller tillers outboard outboards`);
const SLOTS =
  words(`break breaks class classes lesson lessons session sessions video videos clip clips slot slots walk walks
  ride rides job jobs talk talks mark window windows rule timer epoxy glue drive warranty old-timer course courses chat
  lunch film recording recordings veteran apprenticeship deal task shift meeting countdown warning queue labour labor work notice`);
const BENDS = words(
  'bend bends elbow elbows fitting fittings adapter adaptor pick picks pliers valve valves stem head countersink twin v-twin',
);
/** Words that end a name: what comes after them is not named by the size. */
export const STOPS =
  words(`a an the this that these those it its my your our his her their i you we he she they and or but so then than
  if when while because of on in at to for from with by into onto over under through off out up down per as about around between
  is are was were be been has have had do does did will would can could should must may might not no never yes there here
  now again before after until till each every all both just only also too very use grab take put set turn tighten loosen check
  get give go goes keep let make pull push hold which what who where how apart away back more less dry wet cold hot long wide
  deep thick high`);
/** Of these, some tools have their names: a 10 mm deep socket. */
export const ADJECTIVES = words('back deep long wide thick high hot cold');

export const BY_KIND: Readonly<Partial<Record<SimpleKind, readonly ReadonlySet<string>[]>>> = {
  torque: [words('wrench wrenches screwdriver driver gun tool')],
  force: [words('gauge gauges scale scales')],
  pressure: [
    words(
      'gauge gauges compressor compressors pump pumps regulator bottle bottles cylinder cylinders cap caps line airline hose tyre tyres tire tires',
    ),
  ],
  length: [TOOLS, DRIVES, WHEELS],
  volume: [CONTAINERS, ENGINES],
  mass: [CONTAINERS, words('hammer hammers mallet jack jacks hoist weight weights bag bags scale scales spool')],
  angle: [BENDS, words('fastener fasteners')],
  power: [ELECTRIC, ENGINES, words('kettle kettles trainer inverter soldering iron irons')],
  voltage: [ELECTRIC],
  current: [ELECTRIC],
  charge: [ELECTRIC],
  resistance: [ELECTRIC],
  'turning-speed': [ELECTRIC, ENGINES, words('spindle spindles grinder grinders')],
  flow: [words('pump pumps nozzle nozzles head heads tap taps valve valves fan fans collector collectors extractor')],
  hardness: [words('wheel wheels tyre tyres tire tires pad pads block blocks bush bushes bushing bushings')],
  ratio: [],
  count: [words('sprocket sprockets ring rings cog cogs gear gears cassette blade blades loop loops chain chains')],
  time: [SLOTS, TOOLS, DRIVES],
  distance: [words('ride rides trip trips walk race loop test road service services')],
};

export const MEASURED =
  words(`thickness gap depth length play clearance travel width diameter wear runout run-out limit slack sag
  point points protrusion projection stretch float margin tolerance offset drop rise difference reading readings range
  minimum maximum min max turn turns twist rotation sweep hold wait soak cure pause interval overlap fill lift stroke
  torque pressure force preload dwell advance stop stops steps increments intervals overfill spread reach height size setting bevel
  centres centers cut pass step shaving opening notch slope arc wedge taper bevels microbevel chamfer angle undercut radius overrun delay`);

/** What a machine carries is weighed, not named by its weight: an eighty kilogram rider. */
export const BURDENS = words('rider riders passenger passengers pillion person load loads luggage payload cargo');
