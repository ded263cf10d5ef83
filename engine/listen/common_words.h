/* Words that everybody uses: what somebody types is no slip of the pen if it is one of these.
 * "stick" is not meant to be "stuck", nor "fine" "fire". Plain, as unicode_plain folds them;
 * English and Spanish. More words here make the ear for danger stricter with misspelt words, fewer
 * make it hear danger in harmless ones. */
#ifndef TT_LISTEN_COMMON_WORDS_H
#define TT_LISTEN_COMMON_WORDS_H

/* clang-format off */

#define COMMON_WORDS_EN(WORDS) \
    WORDS("able abort about above across act actual ad add after again age ago agree ahead aid aim air alarm alert all allow almost alone") \
    WORDS("along already alright also alter always amount angle animal another answer any apart appear apply area army arrive art aside ask") \
    WORDS("asleep attach audio aunt auto avoid awake away awful awhile back bad bag bake bald ball band bang bank bar bare barely barrel base") \
    WORDS("basic basin batch bath battery be beach bead bean bear beast beat became become bed beef been beep beer before begin behind being") \
    WORDS("believe bell belong below belt bend bent beside best bet better between beyond big bike bill bind bird birth bit bite bitter black") \
    WORDS("blade blame blank blast bleach bled bleed blend bless blind blink block blocked blog blond blow board boat bold bolt bond bone") \
    WORDS("book boost boot booth border bore bored born borrow boss both bother bottle bottom bought bounce bound bow bowl box brace braid") \
    WORDS("brain brake branch brand brass brave bread break breed brew brick bridge brief bright bring broad broke bronze brother brought") \
    WORDS("brown bucket buddy budget build built bulb bulk bull bump bunch bus bush busy but butt butter button buy buzz by cable cafe cage") \
    WORDS("cake call calm came camera camp can cancel candle candy cannot cap card care careful careless cargo carpet carry cart case cash") \
    WORDS("cast cat catch cause cave cease cell cellar cent center certain chain chair chalk chance change charge chart chat cheap check") \
    WORDS("cheek cheer chef chest chew chief chill chip choice chore chose church circle city claim clamp class claw clay clean cleaned") \
    WORDS("cleaner clear cleared clerk clever click client climb clip clock close closed closer cloth clothe cloud cloudy clue coach coal") \
    WORDS("coarse coast coat code coffee coil coin cold collect color colour come common cone confuse contest control cook cooked cooking") \
    WORDS("cool cope copper copy cord core corn corner cost cotton couch could count county couple course court cover covered crack cracked") \
    WORDS("cramp crane crash cream create creek crew cross crowd crown crust crusty cry cubic cup cups cure curl current curse curtain curve") \
    WORDS("cut cycle daily damage damp dance dare dark dash date dated day deaf deal dealer dear debt decide deck deep defect degree delay") \
    WORDS("deliver demand demo dense dent deny depend depth desert design desk detail detect develop device devil dial diet differ dig dim") \
    WORDS("dime dine dinner dip dire direct dirt dirty disc dish disk disparo ditch dive divide do doctor does dog doing doll dollar dome") \
    WORDS("done door dot double doubt down dozen draft drag drain drained dream dress drew dried drier drift drill drink drip drive driven") \
    WORDS("drop drove drug dry dual duck due dug dull dumb dump during dusk dust dusty duty each eager early earn earth ease easier easily") \
    WORDS("east easy eat eaten edge edit effect effort eight eighty either elbow eleven else empty end enemy energy engine enjoy enough enter") \
    WORDS("entire entry equal error escape even evening event ever every exact except excuse exist exit expect expert explain expose extra") \
    WORDS("face faced fact factor fade faded fail failed failing fair fairly faith fake fallen false fame family famous fan far fare farm") \
    WORDS("farther fast fat fault favor feature fed fee feed feeding feel fees feet fellow felt fence few fiber field fierce fifth fifty") \
    WORDS("fight figure file filed fill filled filling film filter final find finder fine fined finger finish fires firm first fish fist fit") \
    WORDS("fitted fitting five fix fixed fixing flag flap flare flash flashing flat flavor flaw flesh flew flight flip float floats flood") \
    WORDS("floor flow flowed flowing flows fluid flush fly foam foamed focus fog foggy fold folks follow food fool foot for force ford") \
    WORDS("forever forget fork form former fort forth forty forward fought found four fours frame framed freak free freed freeze freezer") \
    WORDS("fresh friday fridge friend from front frost froze frozen fruit fry fuel full fully fun funny fur fuse fuss future gain gallon game") \
    WORDS("gap garage garbage gate gather gauge gave gear general gentle get giant gift girl give given glad glass globe glove glow glue go") \
    WORDS("goal goes going gold gone good got grab grade grain gram grand grant grass grate grave gravity gray grease greasy great greedy") \
    WORDS("green greet grew grey grind grip grit gritty ground group grow grown guard guess guest guide gum gun gust gusty habit had hail") \
    WORDS("hair hairy half hall hammer hand handing handle handled handles handling handy hang hanging happen happy hard harder hardly harm") \
    WORDS("harsh has haste hat hate haul have hay haze hazy he head headed heading heal healthy heap hear heard hearing heart heat heated") \
    WORDS("heater heats heavy heel height held hello helmet helper helpers her here hero hidden hide high higher highly hill him hinge hint") \
    WORDS("hip hire hired his history hit hold holder holding hole holes hollow home honest honey hood hook hop hope hoped hoping hopping") \
    WORDS("horn horse hose hoses host hotel hotter hour hours house housing how however huge hum human humid hundred hung hunger hungry hunt") \
    WORDS("hurry husband ice icy idea ideal idle if ill image in inch inches index inlet inner input inside insider instead insure intake") \
    WORDS("into iron is island issue it item jacket jam jar jaw jelly jerk jerks jet job join joint joke judge juice juicy jump june junk") \
    WORDS("just keen keep kept key kick kicked killer kind king kit kitchen knee knew knife knob knock knot know known label lack lacking") \
    WORDS("ladder lady lake lamp land lane large last late later laugh law lay layer lazy lead leader leads leaf leak lean leaning leap learn") \
    WORDS("lease least leather leave leaves led left leg lemon lend length lens less lesson let letter level lever lid lie life lift light") \
    WORDS("lights like liked likely limb lime limit line lined liner lines link lint lip liquid list listen liter little live lived liver") \
    WORDS("load loaded loan lobby local lock locked locker logo long longer look looked loop loose loosen lose loses loss lost lot loud") \
    WORDS("louder love low lower lowered luck lucky lump lumpy lunch machine mad made magic mail main major make male mall man manage manager") \
    WORDS("manual many map march mark market mask mass master mat match mate math matter mature max may maybe meal mean means meant measure") \
    WORDS("meat media medium meet mesh mess message messy metal meter method middle might mild mile milk milky mill mind mine minor mint") \
    WORDS("minus minute mirror miss missed mist misty mix mixed mobile mode model modern moist mold moment monday money monkey month mood") \
    WORDS("moon more morning moss most motion motor mount mouse move moved movie mower much mud muddy mug mural muscle music must mute my") \
    WORDS("nail name narrow nasty native nature near nearby nearly neat neck need needed needle needles neither nerve nest net never new") \
    WORDS("newer news next nice nicer night nine ninety no noise noisy none noon nor normal north note noted nothing notice now nozzle number") \
    WORDS("nut oak obey ocean odd of off offer office often oil oily ok okay old on once one only onto open opened order other otter our out") \
    WORDS("outer outlet outside oven over own owner oxygen pace pack packed pad page paid pain pair pale pan panel panic paper parade park") \
    WORDS("parked parking part parts party pass passed past paste patch path patient pattern pause paused pay payment peace peak peel pen") \
    WORDS("people pepper per perfect perhaps period person phone photo pick picked pickup piece pile piled pill pillow pin pinch pine pink") \
    WORDS("pint pipe piped piping pit pitch pitched place plain plan plane plant plaster plastic plate play please plenty plug plugged plus") \
    WORDS("poach pocket point pointed poke pole police polish polite poll pool poor pop popular port portion pose possible post pot pound") \
    WORDS("pour powder power press pressed pressure pretty price prime primed primer print printed printer prize probe problem program proof") \
    WORDS("proper proud prove public pull pulse pulsed pulsing pump pumped punch pure purge purple purpose purse push put quality quarter") \
    WORDS("question quick quiet quit quite race rack radio rag rail rain raining raise ran range rapid rare rat rate rather raw ray reach") \
    WORDS("read ready real really rear reason recall receive recent reel refill refuse regal regular relay relief rely remain remind remote") \
    WORDS("remove rent repair repeat replace reply report rest result return rice rich ride ridge right rim ring rinse rinsed rinses rinsing") \
    WORDS("rip ripe ripple rise rises risk river road roar rock rocker rod roll rolled roof room root rope rose rotate rotten rough round") \
    WORDS("route row rub rubbed rubber rubbing rude rug ruin rule run rung rush rust rusty sack sad safe safely safer said sail salad sale") \
    WORDS("sales salt salty same sample sand sandy sat save saved saw say scale scaled scaling scare scatter scene school score scrap scrape") \
    WORDS("scraper scratch screen screw scrub sea seal season seat second secret secure secured see seed seem seems seen sell send sense") \
    WORDS("sensor sent separate serve set settle seven seventy several severe shade shaft shake shaky shall shallow shape share shared sharp") \
    WORDS("shave shaved shaving she shed sheer sheet shelf shell shield shift shine shined shiny ship shirt shoe shook shop short shorter") \
    WORDS("shot should shoulder shout shove show showed shower shown shows shuck shut shutter sick side sided sight sign signal silent silk") \
    WORDS("silly silver similar simple since sing single sink sinking sinks sip sister sit site sits sitting six sixty size skew skid skill") \
    WORDS("skim skin skip skipped skips sky slack slam slant slap sled sleep sleeve slept slice slick slide slides sliding slight slim slime") \
    WORDS("slimy sling slip slippery slit slope slow slower slowly slump slurry small smaller smart smash smear smeared smile smiling smoke") \
    WORDS("smooth snack snake snap snow snowy so soak soap soapy sock soda soft soften soil solar sold sole solid solve some son song soon") \
    WORDS("sore sort sound soup sour source south space spare spared spark speak speck speed spell spend spent spice spike spill spin spiny") \
    WORDS("spit spits spitting splash split splits spoil spoke sponge spongy spoon sport spot spotless spots spotted spotty spout spread") \
    WORDS("spring square squeak squeaky squeal squeeze stack staff stage stain stained stair stale stall stand standing star stare start") \
    WORDS("started starter starts starve state station stay steady steal steam steel steep stem step stick sticking sticks sticky stiff still") \
    WORDS("stir stock stomach stone stood stop stopped stopper stopping storage store stored storm story stove straight strain strainer") \
    WORDS("strange strap straw stray streak streaky stream streaming street strength stress stretch strike string stringy strip stripe") \
    WORDS("stripes strong stronger struck structure strung stuff style such suck sucks suction sudden suds sudsy suit suite sun sunday sunny") \
    WORDS("supply support sure surface surge swap sway sweat sweep sweet swell swing swipe swirl switch system table tag tail take taken") \
    WORDS("takes talk tall tan tank tap tape taped tar task taste tax tea teach team tear tech tell ten tend tent term test tested than thank") \
    WORDS("thanks that thaw thawed the their theme then there these they thick thicker thin thing think thinner third thirty this those") \
    WORDS("though thought thousand thread threat three threw throat through throw thrown thumb thump ticket tide tidy tie tied tight tile") \
    WORDS("till tilt tilted time timed timer timing tin tiny tip tire tired to toe together told tone tongue tool tooth top topped torch torn") \
    WORDS("toss total touch tough toward towel tower town toy trace track trade traffic trail train training transfer trap trash travel tray") \
    WORDS("tread treads treat tree trench trial trick tried tries trigger trim trip tripped tripping trips trouble truck true truly trunk") \
    WORDS("trust truth try tub tube tuck tuesday tune tuned turn turned turning twelve twice twin twist two type typo ugly under unit until") \
    WORDS("up upper upset upside use used useful user using usual value valve van vary vast vent vented vents version very vest view voice") \
    WORDS("void volt volume wait wake walk wall want warm warn warning wash washed waste watch water watery wave wavy wax way we weak weaker") \
    WORDS("wear weather week weekend weeks weigh weight weird weld well went were west wet wetter what wheel wheels when where which while") \
    WORDS("whip whistle white who whole why wide wider wife wild will win wind window windy wing winter wipe wiped wiper wire wired wise wish") \
    WORDS("with within without woke woman wonder wood word words work worked working world worm worn worry worse worst worth would wound wrap") \
    WORDS("wrapped write wrong wrote yard year yell yellow yes yet you young your zero zone")

#define COMMON_WORDS_ES(WORDS) \
    WORDS("abajito abajo abierta abierto abre abrir acaba acaban acabo aceite acera adelante adelantito ademas afuera agua aguada aguado") \
    WORDS("aguanta aguja ahora aire aires al algo algun alguna algunas algunos alla alli alta alto altos amarillo ambos ancho anda andan") \
    WORDS("andar anillo ano anoche anos antena antes apaga apagada apagado apenas aqui arbol arco area arena arranca arregla arreglo arriba") \
    WORDS("asi asoma atras aunque auto autos avisa avisen ayer azul baja bajan bajar bajito bajo balde banco banda bano barata barato barra") \
    WORDS("barril barro base basta bastante basura batea bebe bien blanca blanco bloque bola bolas bolsa bomba bonito borde bota botan bote") \
    WORDS("botella boton brilla brillo brisa brocha bronca bronce buen buena bueno busca cabe cabeza cable cada cadena cae caen caer caida caja") \
    WORDS("cajon cajuela cal calidad calle calor cama cambia cambiado cambie cambio camina camino camion campo canal cansado cantidad capa") \
    WORDS("capaz cara carga cargo carne caro carro carros carta cartel casa casas casco casi caso causa cayo cera cerca cero cerrada cerrado") \
    WORDS("cerro chapa chica chico chile chilla chillan choca chofer cien ciento cierra cierto cinco cincuenta cinta claro clase clave clavo") \
    WORDS("clima cloro cobra cobre coche coches codo cofre coge cola color come comida como compra con copa coral corre correa correr corta") \
    WORDS("cortan corte corto cosa cosas costa costado cree crema creo cruce cruza cuadro cual cuando cuanto cuarenta cuarto cuatro cubo") \
    WORDS("cubre cubren cuerda cuero cuesta cuida cuidado culpa cura dado dale dan dar de debajo debe deben debil decir deja dejan dejar dejo") \
    WORDS("del demas dentro derecha derecho desde despacio despues dia dias dice dicen dieron dijo dinero directo doble doce dona donde dos") \
    WORDS("dura duran duro echa echan echar ejemplo ellos empieza encima enfrente entra entrada entran entre eran eres error esa esas escoba") \
    WORDS("ese esos espacio espejo esponja esposa espuma esquina esta estaba estaban estado estan estar este esto estos exacto extra facil") \
    WORDS("falla fallan fallo falta faltan fecha feo fibra fija fijo fila filo filtro fin fina final fino firma firme flaca flaco flecha") \
    WORDS("floja flojita flojo flor flota flote flujo foco focos fondo forma foto fraile frena freno frente fresca fresco fria frio fuera") \
    WORDS("fuerte fuerza funciona funda ganas garra gasta gastan gasto gente gira giran girar giro gota gotas grado gran grande grasa gratis") \
    WORDS("grava gris gruesa grueso grupo guarda guia gusta habia habla hace hacen hacer hacia haga hago hasta hay hecho hicieron hielo") \
    WORDS("hierro hilo hoja hojas hola hora horas hoy hubo hueco huele huevo humeda humedo iba ido igual inicio ir izquierda jabon jala jalan") \
    WORDS("jalar jalo jarra jefe joven juega juego jugo junta junto labio lado lados ladrillo lago lana larga largo lata lava lavada lavado") \
    WORDS("lavan lavar lee leer lejos lenta lento letra levanta leve ley libra libras libre libro limpia limpian limpiar limpio linea lisa") \
    WORDS("liso lista listo litro llama llaman llamar llanta llantas llave llega llegan llegar llena lleno lleva llevan llevo llora lluvia lo") \
    WORDS("local loco loma lona luego lugar luna lunes luz macho madera mal mala malo mancha manchas manda mando manera manga manguera manta") \
    WORDS("manual marca marcas margen mas masa mata mayor mazo media medida medio medir mejor menos mente merengue mes mesa meta mete meter") \
    WORDS("metro mezcla mia mide mil mina minuto mio mira mirar misma mismo mitad modo moja mojada mojado molde moneda mono monta montan") \
    WORDS("morado motor mover mucha muchas mucho muchos muda mueve mueven mugre muro musica muy nada nadie nave necesita negra negro niebla") \
    WORDS("ningun nivel noche nombre norte nota noventa nube nueva nuevo numero nunca ochenta ocho ocupa oeste ojala ola olla once orden") \
    WORDS("orilla oscuro otra otras otro otros oye padre paga pagar pago pais paja pala palo pan panel pantalla papel par para parada parado") \
    WORDS("parece pared paro parte partes pasa pasan pasar paso pasta pasto pata patio pausa paz pedal pedazo pedazos pega pegan pelado pelo") \
    WORDS("pelota pena penal pequena pequeno pera perdon perilla pero perro persona pesa pesada pesado peso pico piedra pieza pila pilas") \
    WORDS("pinta pintura pisa piso pista placa plan plana plano planta plata plato playa poca pocas poco pocos poder polvo pone ponen poner") \
    WORDS("por poros porque posta poste precio prende prenden presion prima primera primero prisa prueba puede pueden puerta pues punta punto") \
    WORDS("pura puro puros pusieron que queda quedan quedo queja quejan quejaron quejo queso quien quiere quita quitan quitar quite rabo rama rapido rara raras") \
    WORDS("raro rata rato raya rayas rayo razon real recio recto red regla rejilla reloj resto rica rico riega rin rines risa ritmo roca roja") \
    WORDS("rojo rompe ronda ropa rosa rota rueda ruedas ruido rumbo ruta saca sacan sal sala sale salen salida salir salta salto salud sana") \
    WORDS("sano santo sarro sarten seca secan secar seco secos segundo seis sello semana sena serie sesenta setenta si siempre siete silba") \
    WORDS("silban silla sin sirve sirven sitio sobra sobre sol sola solas solo son sopla soplan sordo su suave sube suben subir sucia sucias") \
    WORDS("sucio sucios suelo suelta suelto suena sur suyo tabla tal talla tambien tanque tantito tanto tapa tapada tapado tapan tapo tarda") \
    WORDS("tarde tarjeta tasa te techo teja tela tengo tenia tenue tercio tibia tibio tiempo tiene tienen tierra timbre tina tinta tipo tira") \
    WORDS("tiran tiras toalla toca tocan toda todas todo todos toma toman tomar tono topa tope torno torre total trabaja trabajo trae traen") \
    WORDS("trapo trapos tras trata treinta tren tres trompa tubo tubos tuerca turno una unas uno unos usa usan usar uso vaca vacia vacio vale") \
    WORDS("valle van vano vapor vaso vean veces vecino veinte veinticinco vela velo ven venta ventana ver verano verdad verde vez via viaje") \
    WORDS("vida vidrio vidrios viejo viendo viene vienen viento vino visto vive volante voltea voy vuela vuelan vuelta vuelve vuelven yeso") \
    WORDS("zona zorro")

/* clang-format on */

#endif
