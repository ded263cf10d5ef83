/* English words of danger, by class (danger_class.h); phrases are separated by "|", the longest
 * that fits counts. Written as unicode_plain folds them: small letters, no marks, no apostrophes.
 * WORDS(class, phrases); the last list hides: "fire extinguisher" is no fire. */
#ifndef TT_LISTEN_DANGER_WORDS_EN_H
#define TT_LISTEN_DANGER_WORDS_EN_H

/* clang-format off */

#define DANGER_WORDS_EN(WORDS) \
    WORDS(IS_INTO | IS_MACHINE, "in the water|in the basin|in the clarifier|in the wet well|in the lagoon|in the manhole") \
    WORDS(IS_CAUGHT | IS_INTO, "crushed by|crushed between|caught between|caught under|run over by|pinned by|pinned under|pinned between|" \
                               "wrapped in|wraped in|wraped around|rolled up in|rolled into|pulled in|pulled into|sucked in|sucked into|" \
                               "sucked under|dragged in|dragged into|dragged under|drawn in|drawn into|wrapped around|wrapped up in|" \
                               "pulled under|got in the machine") \
    WORDS(IS_BODY | IS_INTO, "in the face|in the head|in the mouth|on the head|to the face|to the head|in the leg|in the arm|in the stomach|" \
                             "in the chest|face full of|mouth full of|in face") \
    WORDS(IS_CAUGHT | IS_STUCK, "stuck inside|stuck under|stuck between") \
    WORDS(IS_BODY | IS_ONTO, "down his front|all down his front|down my front|all down my front|down her front|down his back|down my back|" \
                             "all over himself|all over myself|all over his body|all over my body|on his body|on my body|inside his glove|" \
                             "under my glove|under his glove|inside my glove|in his boot|in my boot|in my shoe|in his shoe") \
    WORDS(IS_CAUGHT | IS_GETS_HIT, "got caught|was caught|got trapped|got pinned|got crushed|got dragged|was dragged|got pulled in") \
    WORDS(IS_GETS_HIT, "got hit|was hit|gets hit|get hit|got struck|was struck|got knocked|was knocked|got run over|was run over|got slammed|" \
                       "got bumped|got clipped|hit by|struck by|got cut|got burned|got sprayed|got splashed|got stuck|gets stuck|got hurt|" \
                       "got smashed|was smashed|gets smashed|got smacked|was crushed|rolled over by|ran over by|driven over|stepped on by|" \
                       "steped on by|knocked over by|knocked down by|thrown by|bit by|bitten by|was thrown|got thrown|got bit|got bitten|got squeezed|" \
                       "got squashed|got mangled|got pulled|got sucked") \
    WORDS(IS_EYES | IS_MINE, "my eye|his eye|her eye|their eye|your eye|my left eye|my right eye|his left eye|his right eye") \
    WORDS(IS_GRABS | IS_OBJECT, "caught him|burned him|burned her|got him|got her|has him|has her|on top of him|on top of her|knocked him|" \
                                "pulls him|fell on him|fell on her|fell on me|caught her|caught me|got me|has me|on top of me|knocked her|" \
                                "knocked me|pulls her|pulls me|landed on him|landed on me|landed on her|dropped on him|dropped on me|" \
                                "fell onto him|rolled over him|ran him over|ran her over|ran me over|hit him|hit her in|hit me|grabbed him|" \
                                "grabbed me|pulled him|pulled me|dragged him|dragged me|crushed him|crushed me|squeezed him|trapped him|" \
                                "trapped me|holding him|wont let go of him|wont let him go|wont let go") \
    WORDS(IS_MIXED | IS_TWO, "mixed two|mixed them|mixed them up in|mixed two in|mixed 2|mixing two") \
    WORDS(IS_TRIPS, "tripped|trips and falls|tripping over|stumbled|stumbles|lost his balance|lost her balance|lost balance") \
    WORDS(IS_FALLS | IS_INTO, "fell off|fell in|fell into|fell from|fall from|fall off|fall in|fall into|falls in|falls into|fell through|" \
                              "fell down the|fell off of|slipped on|slipped off|slipped in|tripped on|tripped over|fell on the|fell on his|" \
                              "fell on her|fell backwards|fell over") \
    WORDS(IS_NEGATES | IS_SUBJECT, "nobody|no one|noone|no body|nobodys|no ones") \
    WORDS(IS_NEGATES, "no|not|none|never|without|nothing|neither|isnt|arent|wasnt|werent|dont|doesnt|didnt|havent|hasnt|hadnt|aint|cant|" \
                      "cannot|can not|wont|couldnt|no longer|zero|no more|free of|not a single|no sign of") \
    WORDS(IS_OR, "or|nor|neither|any|anybody|anything|anyone") \
    WORDS(IS_AND, "and|then|also|plus") \
    WORDS(IS_BUT, "but|except|however|though|although|only|just|because|cause|cuz|besides|yet|until|till|when|while|if|than|so|now|bc") \
    WORDS(IS_AUX, "a bit|a bit of|a little bit|less") /* else the verb, and a form of "les" */ \
    WORDS(IS_AUX, "is|are|am|be|has|have|had|does|did|do|the|a|an|really|very|so|too|real|bad|badly|pretty|kind|of|kinda|little|bit|some|" \
                  "still|almost|nearly|all|probably|maybe|there|just|also|right|gonna|going|to|like|well|both|this|that|already|completely|" \
                  "partly|half|up|down|out|off|back|again|here|poor|old|young|new|another|other|got|gets|get|getting|was|were|been|being|" \
                  "is being|is getting|has been|got himself|gets himself|became|gettin") \
    WORDS(IS_INTO, "in|inside|into|under|between|beneath|underneath|below|behind|within|inside of|in between|through|thru|against") \
    WORDS(IS_ONTO, "on|over|onto|all over|upon|across") \
    WORDS(IS_BY, "by|from|with|at|near|next to|beside|for|about|after|before|around|off of|out of|along|of") \
    WORDS(IS_PERSON, "person|people|man|men|woman|women|guy|guys|dude|boy|girl|kid|kids|child|children|baby|lady|gentleman|worker|workers|" \
                     "coworker|coworkers|co worker|employee|employees|attendant|attendants|customer|customers|technician|mechanic|boss|" \
                     "manager|supervisor|friend|buddy|colleague|partner|helper|operator|visitor|teenager|toddler|old man|driver|passenger|" \
                     "pedestrian|victim|team member|team mate|teammate|family|mother|father|brother|sister|son|daughter|mom|dad|uncle|cousin|" \
                     "painter|cleaner|electrician|contractor|plumber|somebodys|someones|one of us|one of them|one of the|loader|prepper|" \
                     "cashier|salesman|dog") \
    WORDS(IS_PERSON | IS_SUBJECT, "i|im|ive|he|hes|she|shes|they|theyre|we|he has|she has|the guy|the man|he is|she is|we are|i am|they are|" \
                                  "my friend|my buddy|my coworker|my boss|my guy|somebody|someone|some body|some one|everybody|everyone|" \
                                  "sumbody|sombody|somone|sum1") \
    WORDS(IS_OBJECT, "me|him|her|them|us|himself|herself|myself|themselves|themself|hisself") \
    WORDS(IS_MINE, "my|his|her|their|your|our|a guys|the guys|a mans|the mans|somebodys|someones|a womans|the womans|a kids|the kids|a ladys|" \
                   "a customers|the customers|workers|employees|attendants|ppls|peoples") \
    WORDS(IS_BODY, "hand|hands|finger|fingers|thumb|arm|arms|wrist|elbow|shoulder|leg|legs|knee|ankle|toe|toes|feet|skin|hair|neck|chest|" \
                   "belly|stomach|hip|rib|ribs|spine|cheek|lip|lips|chin|forehead|forearm|palm|knuckle|knuckles|throat|lungs|fingernail|limb|" \
                   "limbs|hnad|fingr|finguer|nails|fingernails|fingertip|fingertips|pinky|eyelid|eyelids|eyebrow|scalp|jaw|shin|thigh|thighs|" \
                   "groin|tailbone|collarbone|nostril|nostrils|tummy|backside|kneecap|wrists|ankles|shoulders|elbows") \
    WORDS(IS_WEAK, "head|foot|face|ear|ears|nose|back|tooth|teeth|body|heart|brain|bone|bones|tongue|arm") \
    WORDS(IS_EYES, "eyes|both eyes|eyeballs|eyez|eyesight") \
    WORDS(IS_EYE, "eye|eyeball") \
    WORDS(IS_MOUTH, "mouth") \
    WORDS(IS_MACHINE, "brush|brushes|conveyor|conveyer|converyor|belt|roller|rollers|chain|wrap|wraps|wraparound|mitter|mitters|shaft|machine|" \
                      "machines|machinery|gear|gears|sprocket|pulley|motor|fan|blower|mixer|feeder|auger|coupling|dolly|cloth|cloths|" \
                      "equipment|rotor|wheel of the conveyor|drive|press|hoist|dryer|tire shiner|guide rail|rail|elevator|grinder|compactor|" \
                      "washer|scrubber|spinner|cylinder|gearbox|agitator|sump|moving parts|ladder|forklift|screw conveyor|paddle|paddles|" \
                      "impeller|flywheel|drive shaft|screw") \
    WORDS(IS_THING, "car|cars|truck|trucks|suv|suvs|van|pickup|vehicle|vehicles|bus|wire|wires|mirror|mirrors|antenna|antennas|wiper|wipers|" \
                    "roof rack|roof racks|rack|bumper|bumpers|plate|plates|needle|float|knob|switch|button|lamp|light|lights|pressure|level|" \
                    "level switch|ball|balls|check ball|strainer|sensor|sensors|foam|water|air|bit|bits|sponge|pad|clutch|bulb|fuse|relay|" \
                    "coil|solenoid|printer|card|bill|coin|money|dollar|paint|hood|trunk|window|windows|tire|tires|rim|rims|mud|dirt|leaf|" \
                    "leaves|towel|towels|sign|screen|cover|panel|box|price|sales|volume|flow|vacuum|temperature|temp|dose|dosing|residual|" \
                    "reading|number|strength|signal|cone|cones|spring|screw|bolt|bolts|nut|plug|seal|gasket|membrane|diaphragm|seat|rain|snow|" \
                    "tool|tools|key|keys|phone|glass|windshield|blade|blades|plastic|trim|ornament|emblem|sticker|flag|bike rack|tailgate|" \
                    "vane|handle|meter|flowmeter|rotameter|scale|register|computer|controller|program|plc|breaker|timer|camera|trash|bag|rag|" \
                    "rope|string|cable tie|zip tie|lime|slurry|sludge|crust|ice|bracket|arm of|leg of|foot of|door|gate|cap|lid|filter|gauge|" \
                    "gauges|regulator|guard|guards|beam|strap|straps|bungee|tarp|tape|cord|ribbon|strip|strips") \
    WORDS(IS_IT, "it|its|this|that|thats|thing|things|stuff|something in it|something|sumthing|somthing|smth|sth") \
    WORDS(IS_INTO | IS_ROOM, "in there|inside there|in it|under it|in here|in that|inside it|into it|in the thing|stuck in there") \
    WORDS(IS_CHEMICAL, "soap|soaps|soapy|foam|suds|shampoo|product|products|wax|detergent|presoak|pre soak|cleaner|degreaser|liquid|solution|" \
                       "rinse|lube|mix|sealant|fluid|oil|conditioner|polish|sope|tire shine|water|steam|hot water|prep|juice|slurry|polymer|" \
                       "drying agent") \
    WORDS(IS_STRONG, "chemical|chemicals|chem|chems|acid|acids|lye|bleach|chlorine|caustic|hypochlorite|hypo|sodium hypochlorite|ammonia|" \
                     "alkali|alkaline|low ph|high ph|hydrofluoric|sulfuric|muriatic|peroxide|lime|quicklime|toxic|poison|solvent|chemcal|" \
                     "kemical|chemikal|cemical|chlorin|hf|soda|ferric|fluoride|chloramine|cl2|naoh|hcl|corrosive|boiling water|scalding water|" \
                     "scalding") \
    WORDS(IS_EMERGENCY, "emergency|emergancy|emergncy|emergensy|emrgency|an emergency|call 911|dial 911|need 911|911 now|phone 911|ambulance|" \
                        "nine one one|nine eleven|ambulence|paramedic|paramedics|fire department|fire dept|firefighters|firemen|fire service|" \
                        "fire brigade|mayday|sos|s o s|first aid now|need first aid|need a doctor|need doctor|call a doctor|call doctor|" \
                        "call 112|call 999|heart attack|stroke patient|seizure|having a seizure|man down|person down|evacuate|evacuating|" \
                        "life or death|gonna die|going to die|need a medic|medic|urgent help|help somebody|call police|call the police|" \
                        "someone died|drowning|drowned|drown|electric emergency|he has no pulse|no pulse|hospital|the er|call emergency|" \
                        "911 please|911 help|help 911|first aider|gun|shooting|bomb|fainting person|911|guy down|worker down|operator down|" \
                        "employee down|kid down|customer down|lady down|woman down|dude down|somebody down|someone down|coworker down|" \
                        "attendant down|tech down|people down|dead body|is dead on|not alive|save him|save her|save me|he needs help|" \
                        "she needs help|they need help|get help|send help|somebody help|someone help|bring help|hurry he|please hurry|" \
                        "come quick|come fast|guys down|two guys down|men down|workers down|two people down|ppl down|clutching his chest|" \
                        "heart stopped|grabbed his chest|grabbing his chest|holding his chest|where is the eyewash|where is the eye wash|" \
                        "wheres the eyewash|need the eyewash|need eyewash|at the eyewash|using the eyewash|where is the shower|" \
                        "where is the safety shower|where is the first aid|wheres the first aid|where is the aed|aed|defibrillator|cpr|" \
                        "doing cpr|where is the fire extinguisher|need the fire extinguisher|poison control|urgent care|emergency room|" \
                        "get me out|let me out|people are dropping|something wrong with him|something is wrong with him|" \
                        "something wrong with her|he doesnt look right|had a stroke|having a stroke|has a stroke|a stroke victim|" \
                        "needs eyewash|needs the eyewash|use the eyewash|flushing his eyes|rinsing his eyes|wash his eyes|rinse my eyes") \
    WORDS(IS_FIRE, "fire|fires in|on fire|caught fire|catches fire|catching fire|catch fire|flame|flames|in flames|burning|is burning|blaze|" \
                   "ablaze|burning up|burn down|smoke|smokes|smoking|smoky|smokey|smoek|smoke out|smoldering|smouldering|ignited|ignites|" \
                   "something burns|somethings burns|smth burns|motor burns|pump burns|blower burns|dryer burns|belt burns|brush burns|" \
                   "cable burns|wire burns|wires burn|panel burns|box burns|machine burns|car burns|hose burns|building burns|" \
                   "everything burns|place burns|it is burning|here burns|" \
                   "ignite|fiyah|fier|fire alarm|smoke alarm|caught on fire|somthing burning|up in smoke|cant put the fire out|" \
                   "cannot put the fire out|cant put out the fire|cant stop the fire|cannot stop the fire|fire wont go out|fire is not out|" \
                   "fire isnt out") \
    WORDS(IS_EXPLODES, "explode|explodes|exploded|exploding|explosion|blew up|blow up|blown up|blowing up|big bang|detonated|xplosion|" \
                       "explotion|explosions|went boom|boom|kaboom|ka boom|kabum") \
    WORDS(IS_CAUGHT, "caught|trapped|entangled|tangled|pulling in|pinned|pinned down|wedged|cought|cot in|traped|traped in|swallowed by|" \
                     "eaten by|locked in|locked inside|cant get out|can not get out|cannot get out|cant get free|cant get loose|cant free|" \
                     "get him out|get her out|get me out|get them out|got pulled|squashed|squished|cant move|cannot move|can not move|" \
                     "crushing|was pulled in|is pulled in|cant get him out|cant get her out|cant get them out|cannot get him out|" \
                     "cannot get her out") \
    WORDS(IS_STUCK, "stuck|jammed|lodged|stucked|is stuck|stuk|jam|jams|jamming") \
    WORDS(IS_GRABS, "cant get his|cant get her|cant get my|cant pull his|cant pull her|cant pull my|cant take his|cant take her|cant take my|" \
                    "it has his|it has her|it has my|it got his|it got her|it got my|has him|got ahold of|got hold of") \
    WORDS(IS_GRABS, "wrapped around|wrapped round|hit|hits|hitting|struck|strikes|grabbed|grabs|grab|pulled|pulls|pull|pulling|dragged|drags|dragging|crushed|crushes|" \
                    "squeezed|squeezes|pinched|pinches|run over|ran over|runs over|running over|knocked|knocked down|knocked out|smashed|bit|" \
                    "scraped|whacked|slapped|slammed|smacked|mangled|rolled over|drove over|trampled|bumped|clipped|kicked|attacked|" \
                    "electrified|took|took off|ripped|ripped off|tore|tore off|cut off|severed|chopped|sucks|sucked|caught my|caught his|" \
                    "caught her|sliced|bashed|punched|under the car|under the truck|under a car|under a truck|under the tire|under the wheel|" \
                    "beneath the car|between the cars|between two cars|under the vehicle|under the suv|under the van|behind the car and|" \
                    "under the gate|cut|cuts|ran into|backed into|backed over|knocks|squashed|bites|shut on|closed on|closes on|slammed on|" \
                    "landed on|drops on|dropped on|rolled on|rolled onto|drove onto|backed onto|parked on|under a tire|under a wheel|" \
                    "under its wheel|under the tires|drug|drugged under|knocked over|ran down|mowed down") \
    WORDS(IS_FALLS, "fell|fallen|fell down|fall down|falling down|slipped|slip and fall|slipped and fell|tripped over|took a fall|" \
                    "took a spill|had a fall|falled|feld|has fallen|went down hard|falls down|falls off the ladder|wiped out|hit the floor|" \
                    "hit the ground|hit the concrete|sliped|slipt|felled|came down hard|landed hard|went down") \
    WORDS(IS_SHOCK, "shock|shocked|shocks|shocking|electric shock|electrical shock|electrocuted|electrocution|electrocute|zapped|zapping|" \
                    "got zapped|zaps|zap|got a jolt|jolted|a jolt|electricuted|electrified|elektrocuted|got electricity|shocked me|shocks me|" \
                    "shocks you|shokked|shoked|electrecuted|got the current|got current|current went through me|current went thru|" \
                    "current through my|current through me|electricity went through|electricity through|got bit by the wire|bit by the wire|bit by a wire|bit by the cable|bit by a cable|bitten by the wire|" \
                    "stung by the wire|stung by a wire|it bites|bites me|" \
                    "tingle|tingles|tingling|cant let go|cannot let go|cant release|wont release him|threw him back|threw me back|" \
                    "knocked me back|stuck to the wire|stuck to the panel|felt electricity|felt current|felt the current|felt a current|" \
                    "felt a shock|feel electricity|feel current|feels electricity|feel a shock|touched a live|touched the wire|touched a wire|" \
                    "touched wire|touched the cable|wire touched him|wires touched him|wire touched her|touched the panel and|" \
                    "electricity got him|electricity got me|current in my|electricity in my|feel the current|feels electric|felt a tingle|" \
                    "felt electric|felt the electric") \
    WORDS(IS_FAINTS, "unconscious|unconcious|unconsious|unconshus|unconscius|passed out|passing out|pass out|fainted|faint|fainting|" \
                     "blacked out|black out|knocked out|out cold|not conscious|lost consciousness|loses consciousness|lost conscience|" \
                     "collapsed on|unresponsive|wont wake up|wont wake|cant wake|not waking|not waking up|doesnt wake|does not wake|not awake|" \
                     "isnt awake|seizing|convulsing|convulsions|wont respond|not talking|" \
                     "keeled over|in a coma|overcome by|collapsing on|stopped breathing|face down|wont open his eyes|" \
                     "wont open her eyes|eyes rolled back|isnt getting up|not getting up|wont get up|twitching on the floor|" \
                     "shaking on the floor|jerking on the floor|shaking all over|foaming at the mouth|foaming from the mouth|cant walk|" \
                     "cannot walk|can not walk|heart stopped|no heartbeat|turned blue|turning blue|lips are blue|lips blue") \
    WORDS(IS_LIES, "not moving|isnt moving|doesnt move|does not move|is not moving|aint moving|no movement|not responding|doesnt respond|" \
                   "does not respond|not answering me|on the floor|on the ground|lying|laying|lays there|lies there|is dead|dead|died|dies|" \
                   "collapsed|collapses|is down|cant get up|cannot get up|can not get up|cant stand|cant stand up|not ok|not okay|not well|" \
                   "not good|isnt ok|not alright|not feeling good|not feeling well|in trouble|in shock|having trouble|unwell|white as a sheet|" \
                   "turned blue|turning blue|blue|went limp|limp|limps|goes limp|injure|missing in the tunnel|isnt responding|" \
                   "is not responding|isnt talking|not talking|doesnt talk|doesnt answer|wont answer|not answering|isnt awake|not waking|" \
                   "is on the floor|down on the floor|down on the ground|is not ok|isnt breathing right|not breathing right|in bad shape|" \
                   "bad shape|not responsive|no response|under water|underwater|looks bad|is pale|pale|shaking|is shaking|out of it|" \
                   "dying|killed|was killed|got killed|isnt going to make it|not going to make it|wont make it|gonna die|cant feel his legs|" \
                   "cant feel her legs|hasnt come out|has not come out|did not come out|didnt come out|never came out|not come out|" \
                   "hasnt come back|didnt come back|didnt come back out|acting weird|acting strange|acting funny|talking funny|slurring|" \
                   "staggering|cant walk|cannot walk|can not walk|sweating|shivering|trembling|delirious|not making sense|doesnt make sense|" \
                   "looks terrible|looks awful|disappeared|is missing|not getting out|" \
                   "wont come out|trapped inside|turned white|went white|turned pale|turned gray|turned grey|turned purple|" \
                   "cannot see straight|not coming out|isnt coming out|hanging from|hanging on to|twitching|jerking") \
    WORDS(IS_BLEEDS, "bleed|bleeds|bleeding|blood|bloody|bleedin|bleding|blod|bleading|gash|gashed|stitches|lost a finger|lost his finger|" \
                     "lost finger|cut badly|cut deep|deep cut") \
    WORDS(IS_BLEEDS | IS_HURTS | IS_BODY, "cut my hand|cut his hand|cut her hand|cut my finger|cut his finger|cut her finger|cut my arm|" \
                                          "cut his arm|cut her arm|cut my leg|cut his leg|cut her leg|cut my thumb|cut his thumb|cut my face|" \
                                          "cut his face|cut my wrist|cut his wrist|cut my head|cut his head") \
    WORDS(IS_BREATH, "cant breathe|cant breath|cannot breathe|cannot breath|can not breathe|can not breath|not breathing|isnt breathing|" \
                     "aint breathing|no breathing|not breething|stopped breathing|doesnt breathe|does not breathe|wont breathe|" \
                     "hard to breathe|hard to breath|trouble breathing|hard time breathing|difficulty breathing|difficult to breathe|" \
                     "short of breath|shortness of breath|choking|chokes on|suffocating|suffocate|suffocated|suffocates|gasping|" \
                     "gasping for air|wheezing|no breath|not breath|no can breathe|no breathe|cant get air|cant get any air|no air to breathe|" \
                     "asphyxiated|asphyxiating|lungs burn|lungs hurt|chest burns|throat burns|throat is burning|cant breeth|cant brethe|" \
                     "cant breth|couldnt breathe|couldnt breath|no oxygen|barely breathing|not breathin|barely breathe|choked on|choking on|" \
                     "overcome by fumes|overcome by gas|chest is tight|chest hurts|chest pain|nobody can breathe|no one can breathe|" \
                     "can barely breathe|can hardly breathe|hardly breathe|hardly breathing|we cant breathe|cant hardly breathe|gassed|" \
                     "got gassed|gassed himself|gassed myself|been gassed|gased|lung full of|lungs full of|hard breathing|tight chest|" \
                     "chest tight|chest tightness|tightness in chest|vomit|vomiting|vomited|throwing up|threw up|puking|puked|throw up|" \
                     "breathing hard|breathing heavy|breathing funny|breathing weird") \
    WORDS(IS_COUGHS, "cough|coughs|coughing|sick|ill|nauseous|vomit|vomiting|vomited|throwing up|threw up|puking|puked|throw up|headache|" \
                     "burning throat|poisoned|poisoning|intoxicated|confused and|woozy|gagging|choke|chokes|caughing|coffing|feels bad|" \
                     "feel bad|feel weak|feels weak|feeling weak|inhaled|inhale|inhaling|breathed in") \
    WORDS(IS_HURTS, "hes under the car|he is under the car|shes under the car|she is under the car|somebody is under the car|" \
                     "someone is under the car|man under the car|kid under the car|under the wheels|hurt|hurts|hurting|injured|injury|injuries|injures|wounded|wound|wounds|hert|hurted|hurd|hurtin|ingured|injurd|accident|" \
                    "accidents|crashed into a|concussion|fracture|fractured|sprained|amputated|amputation|broken bone|crying|screaming|" \
                    "screams|yelling for help|crying for help|screaming for help|calling for help|in pain|lot of pain|much pain|severe pain|" \
                    "got hurt|is hurt|hurt himself|cut himself|cut herself|cut myself|cut themselves|burned himself|burnt himself|" \
                    "burned myself|burnt myself|burned herself|poisoned himself|hit himself|hit myself|hit herself|hurt bad|hurt badly|" \
                    "casualty|maimed|scalded|broke a bone|dislocated|hit and run|ouch|blinded|cant feel|cant feel my|cannot feel|" \
                    "cant see anything|gone blind|going blind|lost sight|need bandage|needs bandage|bandage|needs help|needs a doctor|" \
                    "need stitches|first aid for|need first aid|is numb|go numb|went numb|frostbite|frostbitten|trample|it burns|burns me|" \
                    "burned me|burnt me|burning me|is burning me|burns my|burning my|burn my|burn me|burns himself|burn himself|burning skin|" \
                    "chemical burn|chemical burns|acid burn|acid burns|blister|blisters|blistered|covered in acid|covered in chemical|" \
                    "covered in chemicals|covered in bleach|soaked in chemical|soaked in chemicals|soaked in acid|drenched in chemical|" \
                    "full of acid|acid all over him|acid all over me|chemical all over him|chemical all over me|chemical all over her|" \
                    "allergic reaction|anaphylaxis|stabbed|nail in foot|nail in my foot|nail in his foot|stepped on a nail|stepped on glass|" \
                    "popped out of joint|overdose|overdosed|heat stroke|heatstroke|heat exhaustion|rash|degree burn|second degree|" \
                    "third degree|to the bone|threw my back out|threw his back out|pulled a muscle|pulled muscle|smashed finger|" \
                    "crushed finger|broken finger|broken leg|broken arm|broken wrist|broken hip|can not feel his|can not feel my|" \
                    "cannot feel his|cant feel his|cant feel her|can not feel her|have a burn|has a burn|got a burn|bad burn|went through his|" \
                    "went in his hand|went into his hand|went through my|went in my hand|went into my hand|finger hanging|fingers hanging|" \
                    "finger is hanging|thumb hanging|hand hanging|head split|split his head|split my head|split her head|busted his head|" \
                    "busted her head|busted my head|head busted|cracked his head|cracked her head|cracked my head") \
    WORDS(IS_PAIN, "burn|burns|burned|burnt|burning|sting|stings|stinging|pain|pains|painful|itch|itches|itching|itchy|swollen|swelling|" \
                   "swells|numb|cut|cuts|broke|broken|crushed|smashed|mashed|lost|torn|tore|ripped|irritated|irritation|red|blister|blisters|" \
                   "blistered|blistering|rash|sore|ache|aches|aching|sliced|gone|stuck|caught|jammed|trapped|pinned|pinched|squeezed|bruised|" \
                   "bleeding|smash|crush|cutting|watering|tearing|blurry|blind|hurt|on fire|twisted|cracked|hit|bashed|sprain|snapped|chopped|" \
                   "severed|grabbed|pulled|sucked|mangled|melted|peeling|white|cold|freeze|frozen|blured|cant open|cannot open|cant see|" \
                   "cannot see|can not see|caut|tangled|skinned|scraped|hitting|slammed|banged|got in|ate|eats|eating|popped out|glass in|" \
                   "splinter in|metal in|nail in|needle in|came off|fell off|coming off|falling off|stiff|purple|black|hanging|gone numb|blue|" \
                   "swole|busted|messed up|mess|split|split open|gashed|swelled|puffy") \
    WORDS(IS_BURNT, "burned|burnt|scalded|burnd|burneded") \
    WORDS(IS_SWALLOWS, "swallow|swallowed|swallows|drank|drunk|drinking|drinks|ingested|drink the|swollowed|swalowed|swalloed|took a sip|" \
                       "sipped|ate some|drank some|tasted") \
    WORDS(IS_BREATHES_IN, "breathed|breathing in|breathed in|inhaled|inhale|inhaling|inhales|breathe in|breath in|breathing|breathed some|" \
                          "sniffed|took a breath of|breath of|whiff of|took a whiff|a whiff|smelled a lot of") \
    WORDS(IS_GETS_ON, "splash|splashes|splashed|splashing|splashed in|got|gets|get|getting|flew|went|goes|came|fell|spill|spilled|spilt|" \
                      "dripped|sprayed|spray|squirted|squirts|shot|poured|covered|soaked|full of|drenched|doused|touched|touching|has|hit|" \
                      "hits|splashd|splattered|splash of|sprays|sprayed on|spraying") \
    WORDS(IS_ENTERS, "jumped over|jumped into|climbed over|crawled into|hopped over|ducked under|sneaked in|snuck in|" \
                     "inside|ran in|run in|running in|runs in|went in|goes in|walked in|walking in|walked into|walks in|walks into|ran into|" \
                     "running into|went into|going into|goes into|entered|enters|entering|climbed in|climbed into|crawled|crawled in|" \
                     "crawled under|got out of|got out in|out of his car|out of her car|out of their car|out of the car|wandered|wandering|" \
                     "standing in|walking through|walking|got into|jumped in|steps in|stepped in|stepped into|stepped over|reached in|" \
                     "reached into|reaching in|reaching into|stands in|sleeping in|got in|playing in|playing|climbed out in|jumped out in|" \
                     "opened her door and got out|opened her door and stepped|opened his door and got out|opened his door and stepped|" \
                     "opened the door and got out|stepped out|stepped out in|stepped out of|stepping out in|steps out in") \
    WORDS(IS_MIXED, "mixed|mix them|mixing|mixed up in|mixed together|mixed with|mixes with|mixing with|met|meet|reaction|combined|" \
                    "came together|cross contaminated|got mixed|mixed the|mixd|mixt|ran together|mixed up") \
    WORDS(IS_TWO, "two|2|both|different|acid and|and acid|bleach and|and bleach|together|one bucket|same bucket|one tank|same tank") \
    WORDS(IS_GAS, "white cloud|chlorine is coming out|chlorine comes out|chlorine coming out|chlorine is leaking|chlorine escapes|" \
                  "chlorine is escaping|chlorine leaks|gas|gases|gas leak|gas smell|chlorine gas|gas alarm|chlorine alarm|chlorine cloud|cloud of|green cloud|yellow cloud|" \
                  "yellow haze|green haze|haze in|a haze|gaz|gas in|propane|carbon monoxide|co alarm|methane|alarm is on|alarm is going|" \
                  "alarm going off|alarm went off|alarm sounds|alarm is ringing") \
    WORDS(IS_BURST, "burst|bursts|bursting|busted|bust|ruptured|rupture|blew off|blew out|split open|cracked open|exploded hose|hose off|" \
                    "blowing out of a|blowing out of the broken|torn hose|hose broke|hose is broken|broken hose|hose broken|pipe broke|" \
                    "broken pipe|pipe is broken|broken fitting|fitting broke|hose snapped|hose cut|flooding|flooded|flood|brust|busrt|" \
                    "whipping|whipping around|hose whipping|hose is whipping|bursted|cracked tank") \
    WORDS(IS_SPRAYS, "sprays|spraying|sprayed|spray everywhere|sprays everywhere|spraying everywhere|is spraying|squirting|squirts|squirt|" \
                     "squirted|shooting|shoots out|shooting out|gushing|gushes|gush|jet of|spewing|spews|spew|spurting|spurts|geyser|" \
                     "splashing|splashes|splash|splashed|blasting|sprayin|sprying|squrting|jetting|spurt|hissing out of the hose|" \
                     "spitting product|spits product|pouring out|pours out|blasts|blowing product|blows product|hose sprays|spray out|" \
                     "sprays out|spray from|spray at|shooting everywhere|squirting everywhere") \
    WORDS(IS_LEAKS, "leak|leaks|leaking|leaked|leaky|leeking|leek|leeks|leking|lekage|leakage|leakin|drip|drips|dripping|spill|spills|spilled|" \
                    "spilt|spilling|puddle|puddles|seeping|seeps|trickling|weeping|oozing|oozes|on the floor everywhere|pouring|dribbling|" \
                    "losing oil|losing product|coming out of a pipe|coming out of the pipe|out of the fitting|running out of the|leaks out|" \
                    "leaking out|leeking out|drum tipped|product on the floor|soap on the floor|chemical on the floor|water on the floor|" \
                    "acid on the floor|oil on the floor|overflow|overflowing|overflows|overflowed|running over the top|product everywhere|" \
                    "soap everywhere|chemical everywhere|chemicals everywhere|acid everywhere|oil everywhere|product all over|" \
                    "soap all over the floor|chemical all over|acid all over|oil all over|running across the floor|across the floor|" \
                    "everywhere on the floor|floor is full of|floor full of|soap everywhere on|liquid everywhere|water everywhere|" \
                    "flooded with|fluid everywhere|oil on the ground|soap all over the place|product all over the place") \
    WORDS(IS_WONT_STOP, "cant turn the line off|cant turn the conveyor off|cant turn the brush off|cant shut the line off|cant switch the line off|" \
                         "cant shut the line down|cant turn the machine off|cant shut the machine off|wont stop|doesnt stop|does not stop|dont stop|not stopping|will not stop|cant stop it|cannot stop it|can not stop it|" \
                        "cant stop the|cannot stop the|cant stop|cannot stop|keeps running|keep running|keeps going|keeps turning|" \
                        "keeps spinning|keeps moving|wont shut off|doesnt shut off|does not shut off|will not shut off|cant shut it off|" \
                        "cannot shut it off|wont turn off|doesnt turn off|cant turn it off|cannot turn it off|never stops|isnt stopping|" \
                        "wont quit|runs by itself|running by itself|started by itself|starts by itself|start by itself|goes by itself|" \
                        "moving by itself|moves by itself|runs alone|started alone|stop button doesnt work|stop button does not work|" \
                        "stop button broken|stop button is broken|stop button not working|stop doesnt work|stop does not work|" \
                        "e stop doesnt work|estop doesnt work|estop not working|e stop not working|emergency stop doesnt work|" \
                        "emergency stop does not work|emergency stop is broken|emergency stop broken|stop is broken|" \
                        "emergency stop not working|no stop|runaway|run away|out of control|going crazy|goes crazy|gone crazy|cant be stopped|" \
                        "no way to stop|wont shut|wont shut down|doesnt shut down|not shutting off|not turning off|still running after|" \
                        "still moving|still turning|stop not work|wount stop|want stop|no stopping|dosent stop|dosnt stop|didnt stop|" \
                        "did not stop|aint stopping|not stop|stop button stuck|brake failed|brakes failed|no brakes|no brake|" \
                        "stop button doesnt do|stop button does nothing|stop doesnt do anything|stop button does not do|started on its own|" \
                        "starts on its own|started up by itself|came on by itself and moved|turned on by itself|wont turn off the conveyor|" \
                        "stop button broke|stop button wont|estop broke|e stop broke|stop button dont|stop button is not|e stop is not|" \
                        "emergency stop is not|estop is not|emergency stop wont|emergency stop dont|estop wont|estop dont|cant shut off|" \
                        "cannot shut off") \
    WORDS(IS_SPARKS, "spark|sparks|sparking|sparked|sparkes|arcing|arc flash|arcs|short circuit|shorted|shorting|shorted out|short out|" \
                     "bare wire|bare wires|live wire|live wires|exposed wire|exposed wires|wire hanging|wires hanging|hanging wire|loose wire|" \
                     "loose wires|cut wire|cut cable|wire in the water|wires in the water|cable in the water|water in the panel|" \
                     "water in the electrical|water in the box|water in the cabinet|crackling|buzzing panel|electricity in the water|" \
                     "electric water|flashes|flashing in the cabinet|live cable|electrified water|broken wire|broken cable|wire is hanging|" \
                     "power line|downed line|wet outlet|wet plug|spraks|wire on the|wires on the|cable on the|wire in water|wire loose|" \
                     "wire on wet|cord in the water|extension cord in|on the panel|getting on the panel|in the outlet|on the outlet|" \
                     "on the electrical|into the panel|into the electrical|water out of the panel|water from the panel|" \
                     "water out of the electrical|water coming out of the electrical|water in electrical|water in electric|wire down|" \
                     "wires down|cable down on|wire is down|wires are down|wet electrical|electrical box is wet|panel is wet|wet panel|" \
                     "water on the electrical|water got in the electrical|water in the control") \
    WORDS(IS_SMELLS, "smell|smells|smelling|smelly|smelled|smelt|stink|stinks|stinky|stinking|odor|odors|odour|odours|fume|fumes|fuming|vapor|" \
                     "vapors|vapour|vapours|smel|smells like|burnt smell|burning smell|smell of burning|smells burnt|smell burnt|" \
                     "smells burned|smells of burning|smell burning|smells like burning|smells like burnt|smells like something burning|" \
                     "smells like its burning|smell something burning|smells hot|reeks|reek|stench|burned smell|burnt rubber|burning rubber|" \
                     "burnt plastic|burning plastic|smells like fire|smells like smoke|smell smoke|smell of smoke|smoke smell|smell fire|" \
                     "smells of smoke|burny smell|smell like fire|smell like smoke|smell like burning|smell like burnt|something smells burnt|" \
                     "scent of|something smells") \
    WORDS(IS_HOT, "hot|very hot|too hot|red hot|burning hot|overheat|overheats|overheating|overheated|over heating|over heated|glowing|" \
                  "melting|melted|melts|boiling hot|warm drum|drum is warm|drum is hot|tank is hot|tank is warm|getting warm|gets warm|warm|" \
                  "steaming|scorching|super hot|over heat") \
    WORDS(IS_UNSAFE, "bulges|bulging|bulged|swollen|bloated|lit a match|lights a match|struck a match|lit a lighter|with a lighter|" \
                     "with a match|with a candle|hanging over|hanging down|hanging off|came loose|come loose|is hanging|hangs down|about to fall|going to fall|" \
                     "gonna fall|falling apart|fell off the wall|falling off|came down|coming down|collapsing|tipping|leaning over|" \
                     "guard is off|guard off|guard missing|no guard|guards off|cover is off the|missing guard|broke loose|swinging|loose and|" \
                     "ceiling|crack in the tank|broken glass|shattered|car crashed|crash|crashed|hit another car|two cars hit|cars crashed|" \
                     "rear ended|collision|collided|rammed|danger|dangerous|dangeros|dangrous|unsafe|not safe|isnt safe|hazard|hazardous|" \
                     "risky|not secure|scary|afraid|scared|hazmat|danjer|dangerus|guard fell off|chain guard|guard is missing|guard is gone|" \
                     "arch fell|arch fell down|bar fell down|blower fell|" \
                     "bulging|swollen drum|drum is swollen|drum is swelling|brush fell off|brush fell down|brush fell|arch is loose|" \
                     "coming loose|is coming loose|hanging loose|roof is falling|falling from the ceiling|falling from the roof|" \
                     "jumped the track|jumped the rail|jumped the conveyor|off the track|off the rail|off the rails|derailed|" \
                     "wont come out of the tunnel|glass all over|glass on the floor|tank is shaking|shaking badly|over the red|" \
                     "in the red zone|way over pressure|over pressure|overpressure|relief valve|safety valve|wrong chemical in|wrong chemical|" \
                     "wrong product in the|soap in the acid|window broke|broken window|broke a window|broke the window|" \
                     "sounds like it will explode|sounds like its going to explode|bolt came out|bolts came out|came off the wall|" \
                     "pulled off the wall|cracked beam|beam is bent|something fell|falling down from") \
    WORDS(IS_HELP, "help|halp|hlep|hepl|help me|help us|need help|needs help now|help please|help now|i need help|we need help|please help|" \
                   "heelp|helpp|hellp|helpme") \
    WORDS(IS_PLEASE, "please|pls|plz|me|us|now|quick|fast|hurry|need|i|we|somebody|someone|asap|hey|oh|god|hello|anyone|can you|can|you|come|" \
                     "urgent|omg") \
    WORDS(IS_AUX | IS_SUBJECT, "theres|there is|there are|there was|there were|there|ther is|their is") \
    WORDS(IS_CLOTHES | IS_MINE, "my strap|his strap|her strap|my straps|his straps|her straps|my belt|his belt|her belt") \
    WORDS(IS_CLOTHES, "sleeve|shirt|glove|gloves|jacket|pants|shoe|shoes|boot|boots|shoelace|hoodie|sweater|apron|necklace|braid|ponytail|" \
                      "scarf|clothes|clothing|coat sleeve|lanyard") \
    WORDS(IS_ROOM, "tunnel|line|track|pit|arch|bay|wash|car wash|carwash|cage|lift|basin|clarifier|wet well|lagoon|digester|chlorine room|" \
                   "gas room|pump room|manhole|vault|trench") \
    WORDS(IS_HOSE, "hose|hoses|fitting|fittings|pipe|pipes|tube|valve|valves|pump|pumps|tank|vat|drum|drums|barrel|bucket|elbow|hydraulic|" \
                   "compressor|coupler|connector|manifold|line|tanks|tote|container|jug|bottle|injector|cylinder|air line|connection|joint|" \
                   "tubing|flex line|lines|sprinkler|boiler|heater|vessel|hot water tank|propane tank") \
    WORDS(IS_NOZZLE, "nozzle|nozzles|jet|jets|spray|bar|bars|tip|arch|arches|sprayer|sprayers|applicator|rinse|foam arch|injectors") \
    WORDS(IS_MIXED | IS_TWO, "fizz|fizzes|fizzing|bubbling over|foaming over|boiling|boils|reacting|reacts|reacted|is bubbling|tank bubbling|" \
                     "bubbling tank|drum is bubbling|its bubbling") \
    WORDS(IS_POURS, "hooked|hooked up|connected|coupled|poured into|poured in|poured|pour|pouring|dumped|dumped in|added to|put in|put into|went into|in the same|in one bucket|" \
                    "in same|put together|together|mixed|were mixed|put|delivered|unloaded|filled") \
    WORDS(IS_BREAKS, "popped off|popped|pops off|came off|comes off|come off|split|broke off|broken off|snapped|shot off|flew off|flies off|" \
                     "came apart|come apart|comes apart|tipped over|tipped|knocked over|fell over|turned over|running over|popped out|" \
                     "popped open|gave out|let go|overflow|overflowing|overflows|overflowed|blew|blown off|blows off|broke|broken|cracked|" \
                     "torn|loose|fell off|hole in|came undone|came loose|has a hole|cut open|hissing|flying around|whips around|blowing|blows|" \
                     "swollen|swelling|all over the floor|all over the place|everywhere|hiss|hisses") \
    WORDS(IS_EYES | IS_PAIN, "eye splash|splash in eye|splash in the eye|splash in eyes|splashed eye|eye hurts|eye burns|eye is burning|" \
                             "eye injury|eye burning") \
    WORDS(IS_EYE | IS_INTO, "in the eye|in an eye|in one eye|into the eye|in eye|to the eye|in there eye|in the i") \
    WORDS(IS_BREATH, "dizzy|feel faint|light headed|lightheaded|dizzzy") \
    WORDS(IS_LIES | IS_INTO, "went under|is under|underneath it|got under|still under") \
    WORDS(IS_PAIN, "is burning|burning up|are burning") \
    WORDS(IS_UNSAFE | IS_PERSON | IS_SUBJECT, "i climbed|he climbed|she climbed|they climbed|we climbed|i stood on|he stood on") \
    WORDS(IS_UNSAFE, "had to climb|climb up|climbing on|climbed on|climbed onto|climbed the|on a ladder|on the ladder|up the ladder|" \
                     "standing on a|standing on top|on top of the arch|bypassed|bypassed the|bypassing|jumpered|jumped the stop|" \
                     "jumped the e stop|jumped the estop|jumped the switch|jumped the sensor|jumped out the switch|taped the switch|" \
                     "taped the guard|taped the button|taped the stop|tied the stop|tied the button|tied the switch|tied down|taped down|" \
                     "wedged the stop|blocked the stop|disabled the stop|opened the panel|opened the cabinet|opened the electrical|" \
                     "opened the breaker|opened the motor|opened the pump|opened the bowl|opened the nozzle|opened the fitting|" \
                     "opened the filter|took the guard off|took off the guard|removed the guard|took the nozzle off|took off the nozzle|" \
                     "took the pump apart|took the hose off|took off the hose|loosened the fitting|unscrewed the|took the lock|took my lock|" \
                     "took his lock|took off my lock|took off the lock|took off his lock|removed the lock|removed my lock|removed his lock|" \
                     "cut my lock|cut the lock|cut off the lock|lock is gone|lock is missing|lock is not there|took my tag off|torch|" \
                     "blow torch|blowtorch|heat gun|open flame|put a heater|a heater in|portable heater|space heater|kerosene heater|" \
                     "running the generator inside|generator running inside|run a generator inside|generator indoors|engine running inside|" \
                     "engine on inside|went bang|a bang|loud bang|it banged|banged|loud pop|popping sound|popping noise|going to pop|" \
                     "about to pop|gonna pop|will pop|going to blow|about to blow|gonna blow|glass broke|glass is broken|gauge blew|" \
                     "past the red|in the red|into the red|needle is pegged|is pegged|off the scale|puffed up|puffy drum|drum is puffy|" \
                     "bloated|drum bloated|arch is leaning|post is leaning|leaning on|car hit the|truck hit the|van hit the|suv hit the|" \
                     "hit the arch|hit the blower|hit the door|no cover|cover missing|cover is missing|cover is off|cover fell off") \
    WORDS(IS_ENTERS, "is in the tank|is in a tank|are in the tank|got in the tank|is in the vat|is in the sump|is in the hopper|is in the silo") \
    /* of a person: what a machine does, too */ \
    WORDS(IS_UNSAFE, "my coworker is groaning|my coworker is moaning|my friend is groaning|my friend is moaning|he is groaning|he keeps groaning|he started groaning|he groans|he groaned|he is moaning|he keeps moaning|he started moaning|he moans|" \
                     "he moaned|she is groaning|she keeps groaning|she started groaning|she groans|she groaned|she is moaning|she keeps moaning|" \
                     "she started moaning|she moans|she moaned|somebody is groaning|somebody keeps groaning|somebody started groaning|somebody groans|" \
                     "somebody groaned|somebody is moaning|somebody keeps moaning|somebody started moaning|somebody moans|somebody moaned|someone is groaning|" \
                     "someone keeps groaning|someone started groaning|someone groans|someone groaned|someone is moaning|someone keeps moaning|" \
                     "someone started moaning|someone moans|someone moaned|he was groaning|she was groaning|he was moaning|she was moaning|man is groaning|" \
                     "man was groaning|man is moaning|man was moaning|woman is groaning|woman was groaning|woman is moaning|woman was moaning|" \
                     "worker is groaning|worker was groaning|worker is moaning|worker was moaning|coworker is groaning|coworker was groaning|" \
                     "coworker is moaning|coworker was moaning|operator is groaning|operator was groaning|operator is moaning|operator was moaning|he whimpers|" \
                     "she whimpers|he is whimpering|she is whimpering|they are groaning|theyre groaning|hes groaning|shes groaning|they are moaning|" \
                     "theyre moaning|hes moaning|shes moaning") \
    WORDS(IS_UNSAFE, "he is in the tank|hes in the tank|she is in the tank|shes in the tank|they are in the tank|theyre in the tank|" \
                     "someone in the tank|somebody in the tank|a man in the tank|a person in the tank") \
    WORDS(IS_ENTERS, "running around|runs around|running by|playing near|playing around|running on") \
    WORDS(IS_WONT_STOP, "e stop broken|estop broken|estop is broken|e stop is broken|stop button is stuck|stop button gone|" \
                        "stop button is gone|stop button missing|e stop missing") \
    WORDS(IS_MIXED | IS_TWO, "poured the rest|poured what was left|emptied the rest|dumped the rest|poured one drum|poured one into|" \
                             "drum is foaming|drum foams|drum foaming|foaming by itself|foams by itself|drum started to foam|" \
                             "tank is foaming|foaming out of the drum|tank foams") \
    WORDS(IS_SPARKS, "over the panel|running over the panel|runs over the panel|running over the cabinet|dripping on the panel|over the cabinet|into the cabinet|on the cabinet|at the panel and water|cabinet is wet|wet cabinet|" \
                     "in the disconnect|on the disconnect|over the disconnect") \
    WORDS(IS_SHOCK, "feel a tickle|felt a tickle|tickles me|tickles when|feel a buzz|felt a buzz|buzzes me") \
    WORDS(IS_LEAKS, "product is all over|soap is all over|chemical is all over|acid is all over|oil is all over") \
    WORDS(IS_GAS, "gasoline|fuel leak|fuel leaking|fuel on the floor|diesel on the floor|petrol") \
    WORDS(IS_HOSE, "bowl|filter bowl|sight glass|air filter|filter") \
    WORDS(IS_CHEMICAL, "brightener|wheel cleaner|bug remover|tire cleaner") \
    WORDS(IS_SWALLOWS, "ate the soap|ate soap|ate the foam|ate product|licked|mouthful of|a mouthful of|got a mouthful") \
    WORDS(IS_GRABS, "ate my|ate his|ate her|chewed my|chewed his|chewed up") \
    WORDS(IS_GRABS | IS_OBJECT, "pushed him|pushed her|pushed me|pushed a guy|pushed a man|pushed a kid|pushed a person|pushed a woman|" \
                                "pushed somebody|pushed someone|pushed one of") \
    WORDS(IS_SPRAYS | IS_OBJECT, "shot me|shot him|shot her|squirted me|squirted him") \
    WORDS(IS_BODY | IS_INTO, "went through my glove|went through my gloves|went through his glove|went through his gloves|through my glove|" \
                             "through my gloves|through his glove|through his gloves|through her glove|through the glove|through the gloves") \
    WORDS(IS_THING, "lock|locks|padlock|tag|tags") \
    WORDS(IS_SPRAYS | IS_OBJECT, "sprayed on me|sprayed on him|sprayed on her|sprayed me|sprayed him|sprayed all over me|splashed on me|" \
                                 "splashed on him|splashed me|splashed him|spilled on me|spilled on him|dripped on me|got on me|" \
                                 "squirted on me|poured on me|leaked on me") \
    WORDS(IS_UNSAFE, "someone started|somebody started|started the line|started the conveyor|started the brush|turned the line on|" \
                     "turned on the line|switched it on|switched the line on|cars are still coming|cars still coming|cars keep coming|" \
                     "label is different|labels are different|different label|label does not match|label doesnt match|labels dont match|" \
                     "labels do not match|not the same label|wrong label|says acid|will roll it|roll the drum|rolling the drum|" \
                     "tilt the drum|tilting the drum|lift the drum|lifting the drum|carry the drum") \
    /* work on what stands under pressure or runs; in the way of cars; locks of others; fumes */ \
    WORDS(IS_UNSAFE, "loosened the hose|loosened a hose|loosened the clamp|loosened a fitting|loosened the connection|loosened it under|" \
                     "took the fitting off|took off the fitting|took a fitting off|pulled the fitting off|pulled off the fitting|" \
                     "pulled the hose off|pulled off the hose|disconnected the hose|undid the fitting|undid the hose|undid the clamp|" \
                     "under pressure|pressure still on|with the pressure on|with pressure on|pressure still in|push it back on|" \
                     "pushed it back on|push the hose back|pushed the hose back|drain the bowl|drained the bowl|draining the bowl|" \
                     "air bowl i drain|bowl i drain it|bowl and i drain it|opened the drain|emptied the bowl|empty the bowl|" \
                     "reached under the|reached in with|reached in while|between the cars i|in front of the car i|" \
                     "stand in front of the|standing in front of the|stood in front of the|stand in front of a|standing in front of a|" \
                     "i am in front of the car|in the way of the car|i go under the|i went under the|i crawl under|i crawled under|" \
                     "cut off his lock|cut off my lock|cut off her lock|cut off their lock|cut his lock|cut her lock|cut their lock|" \
                     "took their lock|took her lock|took off their lock|removed their lock|broke the lock|broke his lock|" \
                     "opened his lock|opened their lock|exhaust fills|exhaust is filling|full of exhaust|exhaust fumes|exhaust gas|" \
                     "with the doors shut|with the doors closed|doors shut and|doors closed and|doors are shut and|doors are closed and") \
    WORDS(IS_UNSAFE | IS_ENTERS, "myself inside the|i go inside the|i went inside the|i go in the tunnel|i went in the tunnel|" \
                                 "i step into the|i stepped into the|walked into the tunnel|i do it inside the|inside the tunnel myself") \
    WORDS(IS_CAUGHT, "car is on top of|car on top of him|car on top of her|car on top of me|truck is on top of|is on top of somebody|" \
                     "is on top of someone|on top of a man|on top of a person|rolled over somebody|rolled over him|rolled over a man")

/* Hidden: what is meant here is no danger. */
#define DANGER_HIDES_EN(HIDES) \
    HIDES("he moans about|she moans about|they moan about|is moaning about|are moaning about|keeps moaning about|he moaned about|she moaned about") \
    HIDES("fire extinguisher|fire extinguishers|fire door|fire lane|fire exit|fire sale|fire drill|misfire|misfires|fired|fired up") \
    HIDES("air gun|air guns|blow gun|blow guns|foam gun|foam guns|spray gun|spray guns|grease gun|impact gun|impact guns|caulk gun|glue gun|" \
          "wash gun|water gun|tire gun") \
    HIDES("bit by bit|sorted it|sorted that|all sorted|sorted now") \
    HIDES("fires up|firing|fire up|hire|smoke break|smoke detector|no smoking|burn through|burning through|burns through|burnt out") \
    HIDES("burns out|burn out|burning up product|burning up soap|shock absorber|shock absorbers|shock dose|hand valve|hand valves|by hand") \
    HIDES("hand dry|hand drying|hand dryer|second hand|on hand|hand wash|hand washing|handwash|hand pump|hand wheel|hand held|hand towel") \
    HIDES("hand prep|hand side|on the other hand|hands on|lend a hand|give a hand|wiper arm|wiper arms|spray arm|spray arms|brush arm") \
    HIDES("swing arm|wash arm|rinse arm|arm of the brush|arm of the arch|boom arm|robot arm|chest height|knee high|neck of|skin of") \
    HIDES("palm of|elbow fitting|pipe elbow|at elbow|an elbow|lip of|lips of|chin of|bottleneck|arm of|head of|face of|mouth of|foot of") \
    HIDES("feet of foam|feet of|feet away|feet from|feet per|feet long|feet high|first two feet|two feet|few feet|feet past|back of") \
    HIDES("back bumper|back door|back end|the back|in back|come back|came back|going back|run back|runs back|back up|backup|back to") \
    HIDES("be back|photo eye|photo eyes|photoeye|photoeyes|electric eye|electric eyes|entrance eye|entrance eyes|eye lens|eye lenses") \
    HIDES("magic eye|eye sensor|eyes of the tunnel|pump head|feed head|head pressure|head loss|head light|headlight|headlights|heads up") \
    HIDES("head up|nose of|nose cone|face plate|faceplate|hot foam|hot water|hot sun|hot day|hot today|hot outside|hot weather") \
    HIDES("so hot outside|hot days|hot season|hot dog|hot product|hotspot|hot coffee|its hot in here|warm weather|warm day|warm outside") \
    HIDES("warm water|warm today|gas station|gas pedal|gas cap|gas tank door|gas money|blue car|blue lamp|blue light|blue foam") \
    HIDES("blood brother|dead spot|dead leg|dead bugs|dead battery|dead end|dead slow|dead time|dead weight|out of foam|out of soap") \
    HIDES("fall season|in the fall|this fall|last fall|falls in|fell behind|falls short|fell short|falls to|falls from|falls down the") \
    HIDES("falls far|by accident|on accident|catch up|caught up|caught it in time|hit or miss|hit the button|hit the switch|hit enter") \
    HIDES("hit the car|hits the car|hit the target|hit reset|cut off|cuts off|cuts out|cut out|cut in half|cutoff|cut short|cuts short") \
    HIDES("cut down|broke down|breaks down|break down|drop off|no help|didnt help|helped|helps|help desk|help menu|did not help") \
    HIDES("doesnt help|does not help|need help with|help with|help me with|emergency stop|emergency light|emergency exit|emergency number") \
    HIDES("emergency contact|emergency shower|eyewash|eye wash|safety glasses|safety goggles|hospital car|boom truck|boom sprayer") \
    HIDES("spray arch|spray nozzle|spray nozzles|spray bar|spray angle|spray wand|spray foam|chemical pump|smells good|smell nice") \
    HIDES("smells nice|smells fine|smells fresh|smells great|smells normal|smell normal|died down|sick of it|sick leave|called in sick|called off sick") \
    HIDES("choke valve|choked with|choked up with|coughs and spits|coughing and spitting|spitting and coughing|spits and coughs") \
    HIDES("spit and cough|spark plug car|alarm clock|burn rate|burn mark|no pain|pain in the|pain in the neck|painted|paint hurt") \
    HIDES("hurt business|hurts business|hurt sales|hurts sales|hurt the paint|hurts the car|hurt the cars|hurt the finish|killed the foam") \
    HIDES("kills the foam|killed the engine|killing me|killing the foam|dying out|dying down|dies|dies before|foam dying|blue screen") \
    HIDES("limp mode|limps|light fixture|shipped|slipping|slips|slip clutch|clutch slipped|belt slipped|chain slipped|drips off") \
    HIDES("dripping off|drip off|running down|hits the spot|hair line|hairline|body shop|body panel|body of the car|no body to it") \
    HIDES("foam has no body|no body in|body side|shirt guys|shirt day|line man|jam packed|with a smile|gloves on|goggles and gloves") \
    HIDES("wear gloves|need gloves|out of gloves|new gloves|my shift|my name|my boss|my manager|my tunnel|my wash|my site|my pump|my foam") \
    HIDES("my arch|my line|my car|his car|our car|his mirror|her mirror|her antenna|his antenna|crack of|over heard|vapor barrier|strokes") \
    HIDES("each stroke|per stroke|stroke length|short stroke|stroke rate|of each stroke|drive shaft seal|911 rpm|911 psi|911 ppm|911 gal") \
    HIDES("911 ml|about 911|around 911|reads 911|at 911|says 911|shows 911|is 911|burned through|burned out|shock mount") \
    HIDES("shock chlorination|left hand|right hand|hand variator|hand variators|arm of the mirror|mirror arm|legs of the arch") \
    HIDES("leg of the arch|elbow joint|shoulder of|feet behind|feet before|back glass|back window|exit eye|entry eye|head gasket") \
    HIDES("head too high|ear protection|hot wax|hot summer|hot out|blue soap|stuck with the questions|dead zone|dead band|falls off") \
    HIDES("falls in lumps|falls back|accidentally|hit start|hit stop|hurts the paint|hurt the car|killed the line|killed it|white foam") \
    HIDES("cold foam|foam drips|drips down|car body|has body|traffic jam|jammed with cars|his shift|her shift|her car|their car") \
    HIDES("smells like the old product|stroke|hot wire|tingle wax|not help|not much help|first aid kit|first aid box|911 is") \
    HIDES("eye wash station|spray bottle|spray pattern|acid pump|smell good|sick of|sick and tired|choked|cough and spit|jump start") \
    HIDES("crash course|pain in the butt|pain in the ass|warm days|lukewarm|fire the pump|fire the pump up|fire it up|pump fires") \
    HIDES("fire truck|fire trucks|fire engine|smoked glass|smoked windows|smoked|smoke colored|smoke grey|smoke gray|bleed valve|bleeder") \
    HIDES("bleeder valve|bleed the|bleed it|bleed off|bleeds off|bleed air|bleeding the|bleeding air|air bleed|bleed screw|bleed line") \
    HIDES("bleed port|killed the power|kill the power|killed power|kill switch|killed the|foam is dying|dying foam|is dying down") \
    HIDES("scream about|screams about|burned up about|paint burned|burns the paint|burn the paint|dries and burns|soap burns|sun burns") \
    HIDES("sun burned|blast of air|blast nozzle|air blast|bomb shaped|bath bomb|foam bomb|out sick|called sick|sick today|sick day") \
    HIDES("is sick today|hurts the shine|hurt the shine|hurts the finish|hurts the foam|swallowed air|swallows air|washed an ambulance") \
    HIDES("ambulance came through|ambulance in the wash|an ambulance came|hospital van|ambulance to wash|smell is normal|smell is fine") \
    HIDES("normal smell|system crashed|computer crashed|software crash|crash on the|program crashed|crashed the system|screen crashed") \
    HIDES("hose slipped|eye on it|my eye on|an eye on|eyes on the|keep my eye|hands are full|washed my hands|wash my hands|hands are wet") \
    HIDES("hands wet|my gloves|his gloves|pedal|died again|dead again|all dead|blown fuse|fuse burned|fuse burnt|light burned|hit by hail") \
    HIDES("struck out|elbow leaks|shocked the tank|shock the tank|shocked the system|shock the system|shocked the well|shock the well") \
    HIDES("shocked the line|shocked it with chlorine|never mind|nevermind|forget the|forget about|no matter|not only|dont care about") \
    HIDES("no idea how|no idea why|in the face of|in the head of|in the head unit|in the mouth of|on the head of|to the head of") \
    HIDES("in the arm of|on the people mover|people mover|head unit")

#endif
