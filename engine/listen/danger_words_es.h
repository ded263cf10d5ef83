/* Spanish words of danger, as danger_words_en.h has the English ones: as people write them, without
 * marks, with the commonest misspellings. */
#ifndef TT_LISTEN_DANGER_WORDS_ES_H
#define TT_LISTEN_DANGER_WORDS_ES_H

/* clang-format off */

#define DANGER_WORDS_ES(WORDS) \
    WORDS(IS_INTO | IS_MACHINE, "en el agua|en la pileta|en el clarificador|en el carcamo") \
    WORDS(IS_BODY | IS_INTO, "en la cara|en la boca|en la cabeza|en la mano|en las manos|en el brazo|en la pierna|en el pie|en la piel|" \
                             "en el pecho|en la espalda") \
    WORDS(IS_PAIN | IS_NEGATES, "no veo|no vi|no se ve|no miro|no mire") \
    WORDS(IS_CAUGHT | IS_GETS_HIT, "fue arrastrado|fue atrapado|quedo atrapado|quedo atrapada|quedo prensado") \
    WORDS(IS_GETS_HIT, "fue golpeado|fue golpeada|fue atropellado|salio golpeado|salio herido") \
    WORDS(IS_EYES | IS_MINE, "mi ojo|su ojo|mis ojos|sus ojos|mi ojo izquierdo|mi ojo derecho") \
    WORDS(IS_FALLS | IS_INTO, "cayo de|se cayo de|cayo al|se cayo al|cayo del|se cayo del|se fue al foso|se fue a la fosa|se cayo en|cayo en|" \
                              "se cayo adentro|se cayo en la|se cayo a la|cayo a la|me cai de|me cai del|me cai en|me cai al|se resbalo en|" \
                              "me resbale en|se resbalo con|resbalo en|se callo de|se callo al|se callo en") \
    WORDS(IS_GRABS | IS_OBJECT, "le piso|me piso|lo piso|le pisaron|me pisaron|le cayo encima|le pego|le golpeo|le agarro|lo agarro|la agarro|lo jalo|la jalo|le jalo|me jalo|me agarro|" \
                                "me pego|me golpeo|lo aplasto|lo prenso|la prenso|lo atropello|la atropello|lo tumbo|la tumbo|me tumbo|" \
                                "lo golpeo|la golpeo|lo arrastro|la arrastro|se lo llevo|lo atropellaron|la atropellaron|me atropello|" \
                                "lo pesco|la pesco|lo atrapo|la atrapo|me atrapo|le atrapo|le prenso|me prenso|le apreto|me apreto|le machuco|" \
                                "me machuco|le paso por encima|le paso por el pie|le paso encima|le paso por|me paso por encima|lo aplastaron|" \
                                "le aplasto|me aplasto|lo aventó|lo avento|la avento|le cayo la|le cayo el|me cayo la|me cayo el|" \
                                "me cayo encima|le cayo un|le cayo una|lo mordio|lo corto|la corto|le dio en la cabeza|le dio en la cara|" \
                                "le dio en el|lo succiono|lo chupo|se la llevo|lo trago la|se le fue encima|se le vino encima|" \
                                "se me vino encima|se le echo encima|lo esta jalando|la esta jalando|me esta jalando|lo tiene agarrado|" \
                                "no lo suelta|lo aplasta|lo prensa|lo arrastra|la arrastra|lo agarra|lo jala") \
    WORDS(IS_GRABS | IS_OBJECT, "les pego|nos pego|les golpeo|nos golpeo|los golpeo|las golpeo|les agarro|los agarro|las agarro|nos agarro|" \
                                "les jalo|los jalo|las jalo|nos jalo|les aplasto|los aplasto|las aplasto|nos aplasto|les prenso|los prenso|" \
                                "las prenso|nos prenso|los atropello|las atropello|nos atropello|los tumbo|las tumbo|nos tumbo|los arrastro|" \
                                "las arrastro|nos arrastro|les atrapo|los atrapo|las atrapo|nos atrapo|les machuco|nos machuco|les apreto|" \
                                "nos apreto|les piso|nos piso|les cayo encima|nos cayo encima|les paso por encima|nos paso por encima|" \
                                "los mordio|las mordio|nos mordio|me mordio|la mordio|le mordio") \
    WORDS(IS_NEGATES | IS_SUBJECT, "nadie|naiden|naide") \
    WORDS(IS_NEGATES, "ningun|ninguno|ninguna|nada|nunca|sin|tampoco|jamas|ya no|cero") \
    WORDS(IS_OR, "o|ni|u") \
    WORDS(IS_AND, "y|e|luego|entonces|tambien|ademas") \
    WORDS(IS_BUT, "pero|aunque|sino|porque|excepto|salvo|solo|solamente|nomas|nada mas|apenas|cuando|si|que|pues|ahora|hasta|ahorita|pero si|" \
                  "menos|por que") \
    WORDS(IS_AUX, "esta|estan|es|son|estaba|estuvo|ta|tan|se|ha|han|hay|habia|muy|mucho|mucha|bien|un|una|unos|unas|el|la|los|las|del|al|de|a|" \
                  "bastante|poco|poquito|todo|toda|todos|otro|otra|casi|medio|ya|aqui|ahi|alla|mi|este|estoy|anda|parece|como|tambien|asi|" \
                  "todavia|aun|va|sigue|fue|quedo|se quedo|quede|me quede|queda|se queda|quedaron|salio|resulto") \
    WORDS(IS_INTO, "en|dentro|dentro de|adentro|adentro de|bajo|debajo|debajo de|abajo de|entre|en medio de|por debajo|contra") \
    WORDS(IS_ONTO, "sobre|encima|encima de|arriba de") \
    WORDS(IS_BY, "por|con|desde|cerca|cerca de|junto|junto a|para|pa|tras|atras de|detras de|alrededor|a la|a los|a las|al") \
    WORDS(IS_PERSON, "persona|personas|gente|hombre|hombres|mujer|senor|senora|muchacho|muchacha|chico|chica|nino|nina|ninos|bebe|chavo|chava|" \
                     "tipo|sujeto|trabajador|trabajadora|empleado|empleada|companero|companera|compa|cliente|clienta|clientes|chofer|" \
                     "conductor|mecanico|tecnico|jefe|jefa|gerente|supervisor|amigo|amiga|operador|operario|encargado|ayudante|electricista|" \
                     "abuelo|abuela|viejito|viejita|familia|hijo|hija|hermano|hermana|papa|mama|joven|peaton|pasajero|visitante|vecino|primo|" \
                     "tio|perro|wey|guey|morro|morra|plebe|obrero") \
    WORDS(IS_PERSON | IS_SUBJECT, "yo|ella|ellos|ellas|nosotros|usted|uno de nosotros|una persona|un senor|una senora|un hombre|un muchacho|" \
                                  "mi companero|mi amigo|alguien|alguin") \
    WORDS(IS_OBJECT, "le|les|lo|nos|te") \
    WORDS(IS_MINE, "mi|mis|su|sus|tu|tus|nuestro|del muchacho|del senor|de la senora|del companero|del cliente|del empleado|de alguien|de el|" \
                   "de ella") \
    WORDS(IS_BODY, "mano|manos|dedo|dedos|pulgar|brazo|brazos|muneca|codo|hombro|pierna|piernas|rodilla|tobillo|pies|piel|pelo|cabello|cuello|" \
                   "pecho|barriga|panza|estomago|cadera|costilla|costillas|espalda|labio|labios|frente de el|garganta|pulmones|una del dedo|" \
                   "nalga|cintura|mejilla|mno") \
    WORDS(IS_WEAK, "cabeza|pie|cara|oreja|orejas|oido|nariz|diente|dientes|lengua|cuerpo|corazon|hueso|huesos") \
    WORDS(IS_EYES, "ojos|los dos ojos|oxos") \
    WORDS(IS_EYE, "ojo") \
    WORDS(IS_MOUTH, "boca") \
    WORDS(IS_MACHINE, "cepillo|cepillos|brocha|brochas|banda|cadena|rodillo|rodillos|transportador|transportadora|maquina|maquinas|maquinaria|" \
                      "engrane|engranes|polea|motor|ventilador|abanico|soplador|sopladora|mezclador|mezcladora|agitador|alimentador|sinfin|" \
                      "eje|flecha|trapo|trapos|cortina|cortinas|secadora|equipo|rotor|cilindro|prensa|molino|lavadora|escalera|montacargas|" \
                      "riel|guia|rodo|rodos|cinta") \
    WORDS(IS_THING, "carro|carros|coche|coches|auto|autos|camioneta|camion|troca|vehiculo|vehiculos|cable|cables|espejo|espejos|antena|" \
                    "antenas|limpiador|limpiadores|parrilla|defensa|bumper|placa|placas|aguja|flotador|reloj|perilla|switch|interruptor|boton|" \
                    "lampara|luz|luces|foco|focos|presion|nivel|bola|balin|colador|sensor|sensores|espuma|agua|aire|pedazo|pedazos|esponja|" \
                    "embrague|fusible|relevador|bobina|solenoide|impresora|tarjeta|billete|moneda|dinero|pintura|cofre|cajuela|ventana|" \
                    "ventanas|vidrio|vidrios|llanta|llantas|rin|rines|lodo|tierra|mugre|hoja|hojas|toalla|toallas|letrero|pantalla|cubierta|" \
                    "panel|tablero|caja|precio|ventas|flujo|vacio|temperatura|dosis|cloro residual|lectura|numero|senal|resorte|tornillo|" \
                    "tornillos|tuerca|sello|empaque|membrana|diafragma|asiento|chorro|lluvia|herramienta|llave|llaves|telefono|parabrisas|" \
                    "plastico|moldura|calcomania|manija|medidor|bascula|caja registradora|computadora|controlador|programa|timer|camara|" \
                    "basura|bolsa|correa|correas|cuerda|soga|lazo|mecate|alambre|hilo|cal|lechada|costra|hielo|soporte|tarima|producto|jabon|cera|techo|lona|puerta|porton") \
    WORDS(IS_IT, "eso|esto|ello|algo en|algo") \
    WORDS(IS_INTO | IS_ROOM, "ahi adentro|ahi dentro|ahi metido|ahi|alli|adentro de eso|ahi abajo") \
    WORDS(IS_CHEMICAL, "jabon|jabones|espuma|shampoo|champu|producto|productos|cera|detergente|liquido|liquidos|solucion|aceite|agua|vapor|" \
                       "limpiador|desengrasante|spray|aspersion|polvo|mezcla") \
    WORDS(IS_STRONG, "quimico|quimicos|quimica|kimico|kimicos|acido|acidos|cloro|lejia|sosa|sosa caustica|hipoclorito|amoniaco|alcalino|" \
                     "alcali|solvente|veneno|toxico|cal viva|peroxido|muriatico|clorin|blanqueador|quimcio|quimicas") \
    WORDS(IS_EMERGENCY, "emergencia|emerjencia|emergensia|auxilio|ausilio|socorro|socorrer|ambulancia|ambulansia|anbulancia|bomberos|" \
                        "paramedico|paramedicos|llamen al 911|llama al 911|llame al 911|llamar al 911|marca al 911|marquen al 911|llamen 911|" \
                        "llama 911|911 por favor|nueve once|nueve uno uno|llamen un doctor|un doctor|un medico|llama al doctor|infarto|" \
                        "ataque al corazon|convulsion|convulsiones|convulsionando|se muere alguien|se va a morir|murio alguien|evacuen|" \
                        "evacuar|hospital|cruz roja|primeros auxilios|policia|hombre caido|persona caida|ayudenlo|ayudenla|ayudenme por favor|" \
                        "derrame cerebral|no tiene pulso|sin pulso|atropellado|le dio un ataque|ataque epileptico|le dio un paro|" \
                        "paro cardiaco|manden ayuda|pidan ayuda|traigan ayuda|se nos muere|llama a emergencias|llame a emergencias|" \
                        "llamen a emergencias|llamen al doctor|marque al 911|llame 911|al hospital|lavaojos|lavarle los ojos|lavarse los ojos|" \
                        "se esta lavando los ojos|enjuagar los ojos") \
    WORDS(IS_FIRE, "fuego|incendio|incendia|incendiando|incendio en|lumbre|llamas|llama del|flama|flamas|arde el|ardiendo|se quema|" \
                   "se esta quemando|esta quemando|quemandose|se prendio fuego|agarro fuego|se incendio|se incendia|humo|humito|humos|humea|" \
                   "humeando|humareda|humo negro|echa humo|echando humo|saca humo|sacando humo|umo|jumo|fueg|se esta prendiendo|se prendio en|" \
                   "se prendio la maquina|candela|quema algo|algo quema|algo arde|arde algo|algo se esta quemando|arde la maquina|arde un|arde una|quemando algo|se queman|ardio|jumea|fuegoo|esta ardiendo") \
    WORDS(IS_EXPLODES, "exploto|explota|explosion|exploxion|explosiones|explotar|explotando|va a explotar|estallo|estalla|estallar|tronido|" \
                       "volo en pedazos|esploto|esplosion|explocion|esplota|va a tronar|reviento todo") \
    WORDS(IS_CAUGHT, "atrapado|atrapada|atrapados|atrapo|atrapan|atrapa|enredado|enredada|enredo|se enredo|prensado|prensada|prenso|machucado|" \
                     "machuco|machucon|agarrado|atrapao|atorado adentro|atorado en la maquina|jalado por|no puede salir|no se puede salir|" \
                     "no pueden salir|no puedo salir|encerrado|encerrada|aplastado|aplastada|succionado|arrastrado|metido en|engancho|" \
                     "enganchado|se engancho|no puede zafarse|no se puede zafar|no puedo zafar|pillado|pillo|pisado por") \
    WORDS(IS_STUCK, "atorado|atorada|atorados|atoro|se atoro|atora|se atora|atasco|atascado|atascada|se atasco|trabado|trabada|trabo|se trabo|" \
                    "se traba|atorao|pegado|varado|atrancado|se atranco|tranco|atoron") \
    WORDS(IS_GRABS, "choco con|choque con|pego|golpeo|golpea|golpearon|agarro|agarra|jalo|jala|jalando|arrastro|arrastra|atropello|atropella|" \
                    "aplasto|aplasta|apreto|aprieta|machuca|tumbo|empujo|chupo|succiono|trago la maquina|se llevo|pesco|mordio|pellizco|" \
                    "aventado|aventó|cayo encima|rompio|quebro|agarro el|atrapo el|prensa|prenso el|arranco|corto|mocho|mordida|" \
                    "debajo del carro|bajo el carro|debajo de la camioneta|debajo del coche|debajo de un carro|entre los carros|" \
                    "entre dos carros|debajo de la llanta|bajo la llanta|debajo del camion|debajo de la troca|le arranco|me arranco|le quebro|" \
                    "me quebro|le rompio|le trituro|le corto|me corto|no puede sacar|no puedo sacar|no pueden sacar|le paso la llanta|" \
                    "me paso la llanta|le pasaron la llanta|le paso el carro|me paso el carro|atropellaron|aplastaron|arrollo|arrollaron|" \
                    "embistio|apachurro|le apachurro|se apachurro") \
    WORDS(IS_FALLS, "cayo|se cayo|caido|caida|me cai|cai|se caeria|resbalo|se resbalo|me resbale|resbale|resbalon|tropezo|se tropezo|" \
                    "me tropece|tropece|se callo|callo|se calló al|se ha caido|se cayeron|cayeron|se fue al suelo|se fue al piso|azoto|" \
                    "se azoto|se dio un golpe|se dio un trancazo|rodo por|sentoñ|se calleron|se caio|caio|se cayó de") \
    WORDS(IS_SHOCK, "toco los bornes|toco el borne|toco los cables|no puede soltarse|no se puede soltar de|pegado a la corriente|" \
                    "toques|toque electrico|me dio toques|le dio toques|dio un toque|da toques|dando toques|descarga electrica|electrocuto|" \
                    "electrocutado|electrocutada|electrocutando|corrientazo|corriente al|le dio corriente|me dio corriente|dio la corriente|" \
                    "le pego la corriente|me pego la corriente|le agarro la corriente|agarro corriente|calambrazo|calambre|choque electrico|" \
                    "lo agarro la luz|le pego la luz|se quedo pegado a la corriente|pasa corriente|da corriente|toke|tokes|" \
                    "chispazo en la mano|paso corriente|electrocuta|toqe|me electrocute|hormigueo|le dio una descarga|me dio una descarga|" \
                    "un toque de luz|le dio toque|me dio toque|dio toque|agarro toque|un toque con|no se puede soltar|no puede soltar|" \
                    "no lo suelta|pegado al cable|pegado a la corriente|se quedo pegado al|calambre de luz|toque de luz|descarga de luz|" \
                    "calambrazo de luz|la luz lo agarro|lo agarro la corriente|toco un cable|toco el cable|agarro un cable|agarro el cable|" \
                    "siente corriente|senti corriente|se siente corriente|senti un toque|siente toques|senti electricidad|senti la corriente|" \
                    "senti la electricidad|siento corriente|siento electricidad|siento la corriente|sintio corriente|sintio la corriente") \
    WORDS(IS_FAINTS, "inconsciente|inconciente|inconsiente|desmayado|desmayada|se desmayo|desmayo|desmaya|se desmaya|desmayando|no despierta|" \
                     "no reacciona|no responde|perdio el conocimiento|perdio el sentido|sin conocimiento|sin sentido|" \
                     "desvanecio|se desvanecio|noqueado|desmayarse|no contesta|colapso|se colapso|" \
                     "se desplomo|desplomado|me desmayo|me voy a desmayar|dezmayo|desmallo|desmallado|esta tirado en el piso|" \
                     "esta tirado en el suelo|tirado en el suelo|tirada en el suelo|esta tirada en el piso|esta muerto|no se levanta|" \
                     "no se puede levantar|no se quiere despertar|esta inconsciente|tirado sin moverse|se esta muriendo|se murio|se muere|" \
                     "tirado y no se mueve|tirada y no se mueve|tirado y no|tirado sin|alguien tirado|un senor tirado|convulsiona|" \
                     "se esta convulsionando|echa espuma por la boca|espuma por la boca|no puede caminar|labios morados|se puso morado|" \
                     "se puso azul") \
    WORDS(IS_FAINTS | IS_INTO, "esta tirado en el cuarto|tirado en el cuarto|tirado junto a|tirada en el cuarto|tirada junto a") \
    WORDS(IS_LIES, "no se mueve|no se esta moviendo|tirado|tirada|en el piso|en el suelo|en el pizo|acostado|acostada|esta muerto|esta muerta|" \
                   "muerto|muerta|murio|no se levanta|no se puede levantar|no puede levantarse|no se puede parar|no puede pararse|" \
                   "no esta bien|no se siente bien|se siente mal|se puso mal|esta mal|se siente muy mal|mal de salud|en peligro|morado|azul|" \
                   "palido|sentirse mal|se ve mal|no puede moverse|no se puede mover|no ha salido|no salio|no ha vuelto|no aparece|" \
                   "no puede caminar|camina raro|habla raro|temblando|tiembla|sudando frio|se metio abajo|esta abajo del|se ve muy mal|" \
                   "esta palido|no sale|no contesta") \
    WORDS(IS_BLEEDS, "sangre|sangra|sangrando|sangro|sangrado|esta sangrando|le sale sangre|cortada profunda|desangra|desangrando|" \
                     "perdio un dedo|perdio el dedo|zangre|zangrando|hemorragia|sangran") \
    WORDS(IS_BLEEDS | IS_HURTS | IS_BODY, "se corto la mano|se corto el dedo|se corto un dedo|se corto el brazo|se corto la pierna|" \
                                          "se corto la cara|se corto la cabeza|me corte la mano|me corte el dedo|me corte un dedo|" \
                                          "me corte el brazo|me corte la pierna|me corte la cara|le corto la mano|le corto el dedo|" \
                                          "le corto un dedo|le corto el brazo|le corto la cara") \
    WORDS(IS_BREATH, "no puede respirar|no puedo respirar|no respira|no esta respirando|no respiran|no puede respira|le cuesta respirar|" \
                     "me cuesta respirar|cuesta respirar|se esta ahogando|se ahoga|me ahogo|ahogandose|asfixia|asfixiando|asfixiado|" \
                     "se asfixia|me asfixio|axfixia|asficcia|sin aire para respirar|le falta el aire|me falta el aire|falta el aire|" \
                     "falta de aire en|no le entra aire|no agarra aire|atragantado|se atraganto|atraganto|atragantando|no puede respirra|" \
                     "dejo de respirar|dificil respirar|dificultad para respirar|arde la garganta|quema la garganta|me arde el pecho|" \
                     "le duele el pecho|me duele el pecho|no pueden respirar|no se puede respirar|respira mal|apenas respira|" \
                     "no puede rrespirar|tosiendo|tose mucho|vomitando|vomita|ahogando|ahogado|ahogo|ahoga|aogando|se aoga|vomito|vomitar|" \
                     "esta vomitando|devolvio el estomago|pecho apretado|se le cierra el pecho|respira raro|respira con trabajo") \
    WORDS(IS_COUGHS, "tose|tosiendo|tos|tosio|tocer|toce|enfermo|enferma|vomita|vomito|vomitando|nauseas|nausea|intoxicado|intoxicada|" \
                     "intoxico|envenenado|envenenada|envenenó|enveneno|me siento mal|se siente mal|dolor de cabeza|le duele la cabeza|" \
                     "me duele la cabeza|asco|debil") \
    WORDS(IS_HURTS, "me siento mal|nos sentimos mal|se siente mal|se sienten mal|" \
                    "herido|herida|se intoxico|me intoxique|se quemo con|me queme con|quemado con|quemada con|heridos|heridas|erido|erida|" \
                    "lastimado|lastimada|lastimados|lastimo|se lastimo|me lastime|lastime|lastima|se lastima|lastimaron|se lastimaron|" \
                    "lesionado|lesionada|lesion|lesiono|accidente|accidentado|accidento|axidente|acidente|acsidente|se corto|me corte|cortado|" \
                    "cortada|se quebro un|fractura|fracturado|fracturo|hueso roto|duele|duelen|dolor|le duele|me duele|le dolio|dolio|" \
                    "golpeado|golpeada|se golpeo|se pego|me golpee|me pegue|golpe en la cabeza|se quemo el companero|se quemo un|me queme|" \
                    "quemado de la|grita|gritando|gritos|esta gritando|pide ayuda|pidiendo ayuda|llorando|llora|lastimao|no veo nada me|" \
                    "se quedo ciego|ciego|no siente|no siento|amputo|amputado|se machuco|se machucó|me machuque|machucado el|necesita ayuda|" \
                    "necesita un doctor|necesita doctor|curita|venda|vendas|malherido|lastimadura|quemadura|quemaduras|quemada la|entumido|" \
                    "me quemo|le quemo la|me quemo la|nos quema|me esta quemando|me quema la|me arde la|me arde el|le arde la|le arde el|" \
                    "me arden|le arden|se lesiono|me lesione|se accidento|se disloco|se torcio el|se torcio la|me torci|se fracturo|" \
                    "se descalabro|se descalabró|se abrio la cabeza|chillando de dolor|con mucho dolor|lastimandose|se raspo|esta llorando|" \
                    "le duele mucho|grita de dolor|ampolla|ampollas|se siente mal|se siente muy mal|me siento mal|me siento muy mal|" \
                    "esta morado|se puso morado|se puso azul|no ve nada|no veo nada|se bano de acido|se bano de quimico|se empapo de quimico|" \
                    "se empapo de acido|lo bano el quimico|lo bano el acido|se abrio la ceja|se abrio la frente|se machuco la|" \
                    "se reventó el dedo|gaseo|se gaseo|lo gaseo|me gasee|gaseado|gaseada|me gaseo") \
    WORDS(IS_PAIN, "arde|arden|ardor|ardio|quema|queman|quemo|quemado|quemada|quemando|pica|pican|picazon|comezon|hinchado|hinchada|hincho|" \
                   "roto|rota|rompio|quebro|quebrado|quebrada|corto|cortada|cortado|cortaron|aplasto|aplastado|machuco|perdio|rojo|rojos|" \
                   "rojo de|irritado|irritada|irritados|irritacion|ampolla|ampollas|dormida|dormido|lloran|lloroso|llorosos|duele|duelen|" \
                   "sangra|sangrando|atorado|atorada|atoro|atrapo|atrapado|atrapada|agarro|jalo|prenso|prensado|prensada|pego|golpeo|lastimo|" \
                   "torcido|torcio|raspo|raspado|pellizco|no ve|no puede ver|no puedo ver|no puede abrir|no puedo abrir|borroso|adentro|" \
                   "metida|metido|metio|se metio|cayo|caer|entro|salpico|se quema|se queman|se quebro|se rompio|se partio|se torcio|" \
                   "se disloco|se corto|se quemo|se golpeo|se pego|se machuco|se lastimo|se raspo|se atoro|se engancho|se prenso|quemandose|" \
                   "me queme|me quemo|lastimada|lastimado|se le durmio|durmio|se le durmió|ardieron|apachurro|se apachurro|apachurrado|" \
                   "se abrio|abrio|reventado|morada|moradas|inflamado|inflamada|dormidos|ardian") \
    WORDS(IS_BURNT, "quemado|quemada|quemados|quemo|se quemo|me quemo|me queme|le quemo|quemadura|quemaduras|quemaron|me quema|le quema|" \
                    "me arde|le arde|arde mucho|nos quema|keme|kemo|se kemo|kemado") \
    WORDS(IS_SWALLOWS, "trago|se trago|trague|me trague|tragado|bebio|bebi|se bebio|tomo|se tomo|me tome|tome|tomado|ingirio|ingeri|probo|" \
                       "trago de|bebe producto") \
    WORDS(IS_BREATHES_IN, "respiro|respire|respirado|inhalo|inhale|inhalado|aspiro el|aspire|olio el") \
    WORDS(IS_GETS_ON, "cayo|salpico|salpica|salpicadura|entro|metio|derramo|echo|bano|mojo|banado|lleno de|llena de|cubierto de|cubierta de|" \
                      "empapado|tiene|tengo|con|roció|rocio|cayeron|brinco|chisgueteo|cae|callo|esta lleno|le echo|me echo|le echaron|" \
                      "me echaron") \
    WORDS(IS_ENTERS, "adentro|dentro|entro|entro a|entro al|se metio|metio|se mete|corriendo|corre|caminando|camina|se bajo|se bajo de|" \
                     "bajo del carro|anda adentro|esta adentro|sigue adentro|metido|metida|esta dentro|quedo adentro|parado en|cruzo|cruzando|" \
                     "jugando|se subio|subio a|brinco|salto la|salto el|salto al|brinco la|brinco el|se trepo") \
    WORDS(IS_UNSAFE, "alguien en el tanque|alguien esta en el tanque|una persona en el tanque|un hombre en el tanque|se metio al tanque|" \
                     "se metio en el tanque|entro al tanque|entro en el tanque") \
    WORDS(IS_MIXED, "mezclo|mezclaron|mezclado|mezclados|mezclar|se mezclo|se mezclaron|mezclando|revolvio|revolvieron|se revolvio|" \
                    "se revolvieron|revuelto|revueltos|junto|juntaron|se juntaron|se junto|combino|combinaron|" \
                    "reaccion|mezcle|mezclamos|revolvi|revolvimos|junte|juntamos|combine|combinamos") \
    WORDS(IS_TWO, "dos|2|ambos|diferentes|distintos|acido|juntos|y cloro|y acido|equivocado|productos|quimicos") \
    WORDS(IS_GAS, "sale cloro|saliendo cloro|se sale el cloro|se sale cloro|se escapa el cloro|escapa cloro|nube blanca|" \
                  "gas|gases|fuga de gas|gas cloro|nube|nube de|nube verde|nube amarilla|neblina|alarma de gas|alarma de cloro|gaz|butano|" \
                  "propano|monoxido|suena la alarma|sono la alarma|esta sonando la alarma") \
    WORDS(IS_BURST, "revento|se revento|reventado|reventada|revienta|rreventada|rrevento|reventaron|inunda|inundado|inundo|inundacion|" \
                    "se inundo|reviento|se salio la manguera|estallo la manguera|manguera suelta|latigazo|chicotea|chicoteando") \
    WORDS(IS_SPRAYS, "chorro|chorros|chorrea|chorreando|chorreo|salpica|salpicando|rocia|rociando|sale a presion|sale disparado|avienta|" \
                     "chisguete|chisguetea|chisgueteando|chisgueteo|" \
                     "aventando|avienta agua|escupe|escupiendo|brota|brotando|tirando|tira agua|tira producto|tirando agua|tirando producto|" \
                     "tirando quimico|tirando jabon|tira jabon|tira aceite|esta tirando|se esta tirando|pringando|pringa|rociado|esta rociando") \
    WORDS(IS_LEAKS, "fuga|fugas|fuguita|se fuga|fugando|gotea|goteando|goteo|gotera|derrame|derrama|derramado|derramo|se derrama|se sale|" \
                    "se esta saliendo|saliendose|se salio|charco|charcos|filtra|filtracion|regado|rego|riega|se rego|regando|derramando|" \
                    "liqueando|liquea|likea|lique|leak|leakea|fuge|se estaba saliendo|aceite en el piso|producto en el piso|agua en el piso|" \
                    "quimico en el piso|acido en el piso|mancha de aceite|desbordando|se esta desbordando|desborda|se desborda|desbordo|" \
                    "se desbordo|sale producto por|sale jabon por|sale quimico por|sale agua por la|sale aceite|saliendo producto|" \
                    "esta saliendo producto|esta saliendo agua|piso lleno de|piso esta lleno de|producto por todos lados|" \
                    "jabon por todos lados|quimico por todos lados|producto por todas partes|aceite por todos lados|por todo el piso|" \
                    "hay producto tirado|producto tirado|quimico tirado") \
    WORDS(IS_WONT_STOP, "no para|no se para|no se detiene|no se detienen|no deja de|no apaga|no se apaga|no cierra|no se puede parar|" \
                        "no puedo parar|no podemos parar|no puedo apagar|no lo puedo apagar|no la puedo apagar|no la puedo parar|" \
                        "no lo puedo parar|no quiere parar|no quiere apagar|sigue prendida|sigue prendido|sigue girando|sigue andando|" \
                        "sigue corriendo|sigue caminando|se prendio solo|se prendio sola|arranco solo|arranco sola|anda solo|anda sola|" \
                        "camina solo|camina sola|se mueve solo|se mueve sola|no sirve el paro|paro de emergencia no|el paro no funciona|" \
                        "el paro no sirve|boton de paro no|no funciona el paro|no jala el paro|sin control|fuera de control|descontrolado|" \
                        "descontrolada|se volvio loca|se volvio loco|esta loca|sin frenos|no frena|no paran|no parar|no se pueden parar|" \
                        "no hay manera de parar|no paro cuando|no se detubo|no se paro|no detiene|no se ditiene|no funciona el boton de paro|" \
                        "el boton de paro no|no responde el paro|no sirve el paro de emergencia|no funciona el paro de emergencia|" \
                        "no jala el paro de emergencia|el paro de emergencia no|boton de emergencia no|no sirve el boton de emergencia|" \
                        "no funciona el boton de emergencia") \
    WORDS(IS_SPARKS, "chispa|chispas|chispea|chispeando|chispazo|chispazos|corto circuito|cortocircuito|hizo corto|hace corto|un corto|" \
                     "cable pelado|cables pelados|cable suelto|cables sueltos|alambre suelto|cable colgando|cables colgando|alambre pelado|" \
                     "agua en el tablero|agua en la caja electrica|flamazo|arco electrico|cable en el agua|cable roto|cable caido|" \
                     "zumba el tablero|chizpas|chizpa|chispaso|relampaguea|echando chispas|tomacorriente mojado|agua en el panel|" \
                     "cae agua en el tablero|agua al tablero|agua en el enchufe|cable esta pelado|cables estan pelados|pelado el cable|" \
                     "agua en la caja|agua en el control|se moja el tablero|se mojo el tablero|tablero mojado|agua a la caja|" \
                     "agua en lo electrico|agua en la electricidad") \
    WORDS(IS_SMELLS, "huele|huele bien fuerte|huele bien feo|huele bien gacho|huele bien mal|" \
                     "huelen|oliendo|olor|olores|apesta|peste|hediondo|hiede|tufo|gases|vapores|vapor raro|vapores raros|uele|guele|" \
                     "huele a|ole a|olor a quemado|huele a quemado|huele quemado|huele a humo|olor a humo|huele a lumbre|huele como quemado|" \
                     "huele a hule quemado|huele a cable quemado|huele a plastico quemado|huele como a quemado|ueles|emanaciones|" \
                     "humo de cloro|olia|a quemado|chamusca|chamuscado|huele a que se quema|huele a que se esta quemando|olor fuerte|apestoso") \
    WORDS(IS_HOT, "caliente|calientes|calentando|se calienta|se esta calentando|calienta|recalentado|recalienta|sobrecalentado|sobrecalienta|" \
                  "sobrecalentamiento|hirviendo|ardiendo de|al rojo|derritiendo|derritio|se derrite|derretido|esta que arde|calentisimo|" \
                  "muy caliente|calento|se calento|echa vapor|tibio el tanque|tambor caliente") \
    WORDS(IS_UNSAFE, "cables en el agua|cable en el agua|alambres en el agua|cables pelados|hinchado|hinchada|inflado|inflada|abombado|abombada|se hincha|hinchando|un cerillo|un encendedor|una vela|" \
                     "colgando|cuelga|se va a caer|a punto de caer|se esta cayendo|cayendose|se esta desarmando|suelto y|sin guarda|" \
                     "sin guardas|la guarda se|flojo y|se viene abajo|choco|choque|chocaron|chocado|chocó|se estrello|estrello|vidrio roto|" \
                     "vidrios rotos|va a caer|se desarmo|anda suelto|suelta y|quedo suelta|quedo suelto|se desplomo el|peligro|peligroso|" \
                     "peligrosa|peligros|riesgo|riesgoso|inseguro|no es seguro|no esta seguro|no es segura|pelijro|pelogro|miedo|asustado|" \
                     "asustada|peligrosos|falta la guarda|sin la guarda|la guarda se cayo|guarda suelta|inflado|tambor inflado|se inflo|" \
                     "se cayo un cepillo|se cayo el cepillo|se cayo el arco|se cayo una parte|se salio del riel|se salio un carro|" \
                     "vidrios en el piso|vidrio en el piso|rompio el vidrio|se rompio el vidrio|rompio una ventana|quimico equivocado|" \
                     "producto equivocado|valvula de alivio|valvula de seguridad|va a explotar|tiembla el tanque|se esta cayendo el|" \
                     "se va a caer el|se vino abajo") \
    WORDS(IS_HELP, "ayuda|ayudame|ayudenme|ayuden|alluda|alludame|ayudeme|ayudanos|ayudennos|necesito ayuda|necesitamos ayuda|una ayuda|" \
                   "ayudaa|halluda|aiuda|quiero ayuda|ocupo ayuda|jelp") \
    WORDS(IS_PLEASE, "porfavor|por favor|porfa|favor|rapido|ya|pronto|urgente por|alguien|por dios|dios|dios mio|apurense|vengan|necesito|" \
                     "necesitamos|aqui|oye|oiga|hola|me|nos|apurate|corran") \
    WORDS(IS_CLOTHES | IS_MINE, "mi correa|su correa") \
    WORDS(IS_CLOTHES, "cinturon|manga|camisa|guante|guantes|chamarra|pantalon|zapato|zapatos|bota|botas|agujeta|agujetas|sueter|mandil|collar|trenza|" \
                      "bufanda|ropa") \
    WORDS(IS_ROOM, "tunel|linea|pista|fosa|carril|arco|autolavado|lavado|carwash|cuarto|clarificador|carcamo|laguna|registro|alcantarilla|" \
                   "foso|pileta|estanque") \
    WORDS(IS_HOSE, "manguera|mangueras|conexion|tubo|tubos|tuberia|valvula|valvulas|bomba|bombas|tapa|tapon|manometro|filtro|tambor|tambo|" \
                   "tambos|barril|bote|cubeta|tanque|linea|tuberias|niple|cople|conector|compresor|regulador|cilindro|garrafa|recipiente|" \
                   "contenedor|llave de agua|inyector|tina") \
    WORDS(IS_NOZZLE, "boquilla|boquillas|barra|barras|punta|arco|aspersor|aspersores|rociador|rociadores") \
    WORDS(IS_MIXED | IS_TWO, "hierve|hirviendo|burbujea|burbujeando|efervescencia|reacciona|reaccionando") \
    WORDS(IS_POURS, "conectaron|conecto|acoplaron|acoplo|echo|echaron|vacio|vaciaron|vertio|puso|pusieron|le puso|le echo|le echaron|echar|vacie|eche|descargaron|descargo|" \
                    "llenaron|metieron") \
    WORDS(IS_BREAKS, "rota|se rompio|rompio|se rompe|roto|rompieron|se solto|solto|se zafo|zafo|zafada|zafado|se safo|safo|se desconecto|" \
                     "trono|se trono|se abrio|se partio|partio|partida|desprendio|se desprendio|volteo|se volteo|volteado|se volco|volco|" \
                     "tiro el|se tiro|se bota|boto|se boto|se quebro|quebrada|desbordo|se desborda|se desbordo|desborda|se derramo|rotas|" \
                     "rotos|suelta|suelto|agujero|hoyo|rajada|rajado|picada|picado|se salio|volteada|soplando|chicotea|inflado|silbando|silba|" \
                     "por todos lados|por todo el piso") \
    WORDS(IS_GETS_ON | IS_OBJECT | IS_SPRAYS, "le cayo|me cayo|le salpico|me salpico|le entro|me entro|se le metio|se me metio|le mojo|" \
                                              "me mojo|le brinco|me brinco|le salto|me salto|le callo|nos cayo|les cayo|le cae|me cae|lo mojo|" \
                                              "la mojo|lo bano|la bano|nos salpico|lo rocio|lo salpico|les salpico|les entro|nos entro|les mojo|" \
                                              "nos mojo|les brinco|nos brinco|les callo|nos callo|les cae|nos cae|los bano|las bano|" \
                                              "nos bano|los rocio|nos rocio|los salpico|las salpico") \
    WORDS(IS_EYE | IS_INTO, "en el ojo|en un ojo|al ojo|en un hojo|en el hojo") \
    WORDS(IS_BREATH, "mareado|mareada|me marea|se marea|nos marea|me mareo|se mareo|estoy mareado|mareos|mariado") \
    WORDS(IS_PAIN, "esta quemando|se esta quemando|ardiendo|esta ardiendo|arde el|arde un|arde una") \
    WORDS(IS_UNSAFE | IS_ENTERS, "estoy adentro|estoy dentro|estamos adentro|ando adentro|andamos adentro|me meti|nos metimos|me meto|" \
                                 "ya me meti|entre al tunel|estoy en el tunel|estamos en el tunel") \
    WORDS(IS_UNSAFE, "me subi|nos subimos|se subio al|se subio a la|se subio un carro|se subio el carro|se subio una camioneta|" \
                     "se subio encima|subido en|subido al|trepe|trepo|trepado|me trepe|en la escalera|en una escalera|a la escalera|puentee|" \
                     "puenteo|puentearon|puenteado|le puse un puente|amarre el boton|amarraron el boton|amarrado el boton|amarre el paro|" \
                     "le puse cinta al|abri el gabinete|abri el tablero|abri la caja|abri la bomba|abri la boquilla|abri el filtro|" \
                     "abri el vaso|abri el motor|abrio el gabinete|abrio el tablero|quite la tapa|le quite la tapa|quite la guarda|" \
                     "le quite la guarda|quitaron la guarda|quite la boquilla|le quite la boquilla|quite la manguera|afloje la|desarme la|" \
                     "desarme el|quito el candado|quite el candado|quitaron el candado|quito mi candado|quitaron mi candado|" \
                     "corto el candado|cortaron el candado|no esta el candado|no esta mi candado|le falta el candado|soplete|con soplete|" \
                     "con lumbre|calenton|calentador de gas|generador adentro|motor prendido adentro|trono|se trono|trueno|tronido raro|" \
                     "esta tronando|truena|va a tronar algo|se rompio el manometro|trono el manometro|pasa del rojo|en el rojo|" \
                     "hasta el rojo|al tope|a tope|presion se fue hasta arriba|se fue hasta arriba|se fue la presion|choco con|choque con|" \
                     "pego al arco|golpeo el arco|chocaron el arco|se cayo la puerta|se cayo la cortina|le falta la guarda|le falta la tapa|" \
                     "falta la tapa|no tiene guarda|no tiene tapa|sin tapa|sin su tapa|sin guardas") \
    WORDS(IS_WONT_STOP, "anda como loca|anda como loco|anda loca|se mueve como loca|no jala el boton|no jala el boton de paro|" \
                        "no sirve el boton de paro|no sirve el boton|se atoro el boton de paro") \
    WORDS(IS_MIXED | IS_TWO, "vacie lo que|vacio lo que|vaciaron lo que|eche lo que|echo lo que|echaron lo que|le eche lo que|" \
                             "espumea el tambor|espumea el tambo|el tambor hace espuma|el tambo hace espuma") \
    WORDS(IS_SPARKS, "tiene corriente|piso tiene corriente|esta electrizado|esta electrificado|electrizada|agua al gabinete|" \
                     "agua en el gabinete|cae agua al gabinete|sobre el tablero|sobre el gabinete|moja el gabinete|moja el tablero|" \
                     "gabinete mojado|gabinete esta mojado|tablero esta mojado") \
    WORDS(IS_SHOCK, "toque el cable|toque un cable|toque el alambre|siento cosquillas|da cosquillas|cosquilleo") \
    WORDS(IS_LEAKS, "tira gasolina|tirando gasolina|fuga de gasolina|gotea gasolina|gotea la gasolina|huele a gasolina|olor a gasolina|" \
                    "gasolina en el piso|derrame de gasolina|tira diesel") \
    WORDS(IS_SPRAYS, "salto el producto|salto producto|salto el jabon|salto jabon|salto el quimico|salto quimico|brinco el producto|" \
                     "brinco producto") \
    WORDS(IS_SPRAYS | IS_OBJECT, "me disparo|le disparo") \
    WORDS(IS_FIRE, "jumeando|jumea|humiando|esta jumeando") \
    WORDS(IS_HURTS, "se pelo la piel|se me pelo la piel|se le pelo la piel|se me pela la piel|se le pela la piel|se despellejo|" \
                    "se metio producto|se metio jabon|se metio quimico|se metio acido|hoyo en el guante|guante roto|traspaso el guante|" \
                    "paso el guante") \
    WORDS(IS_FAINTS, "no me contesta|no nos contesta|ya no contesta|no me responde") \
    WORDS(IS_SWALLOWS, "se comio el jabon|comio jabon|lamio el") \
    WORDS(IS_EMERGENCY, "ven rapido|vengan rapido|venga rapido|vente rapido|corranle") \
    WORDS(IS_THING, "gabinete|candado|candados") \
    WORDS(IS_HOSE, "vaso|mirilla") \
    WORDS(IS_CHEMICAL, "abrillantador|removedor|limpiador de rines") \
    WORDS(IS_UNSAFE, "se queja mucho|se quejan mucho|se esta quejando|se estan quejando|quejandose mucho|esta quejandose|" \
                     "sigue quejandose|no deja de quejarse|no para de quejarse|gime|gimen|gimio|gemia|gimiendo|gemidos|quejidos|" \
                     "se quejaba mucho|se quejo mucho") \
    WORDS(IS_UNSAFE, "arrancaron la linea|arranco la linea|prendieron la linea|prendio la linea|alguien arranco|alguien prendio|" \
                     "prendieron la bomba|siguen pasando carros|siguen entrando carros|siguen llegando carros|etiqueta es otra|" \
                     "etiqueta no es la misma|otra etiqueta|etiqueta equivocada|etiqueta no coincide|etiquetas no coinciden|dice acido|" \
                     "rodar el tambor|ruedo el tambor|rodando el tambor|levantar el tambor|levanto el tambor|cargar el tambor|" \
                     "ladear el tambor") \
    /* work on what stands under pressure or runs; in the way of cars; locks of others; fumes */ \
    WORDS(IS_UNSAFE, "afloje el|afloje una|afloje un|quite la conexion|quite una conexion|quite el tubo|saque la manguera con|" \
                     "desconecte la manguera|desconecte el|solte la manguera|abri la conexion|con la presion puesta|con presion adentro|" \
                     "todavia con presion|bajo presion|todavia tiene presion|sin quitar la presion|sin bajar la presion|" \
                     "la empujo otra vez|la vuelvo a empujar|purgo el vaso|purgue el vaso|vacie el vaso|vacio el vaso|drene el vaso|" \
                     "drenar el vaso|meti la mano debajo|meto la mano|" \
                     "parado enfrente del|" \
                     "parada enfrente del|parado frente al|parada frente al|parado delante del|parada delante del|enfrente del carro estoy|" \
                     "me paro enfrente|me paro frente|me paro delante|me paso por abajo|me metí por abajo|corte su candado|" \
                     "corte el candado|corte mi candado|rompi el candado|rompi su candado|quite su candado|quitaron su candado|" \
                     "abri su candado|candado de otro|gases de escape|gas de escape|se llena de gases|lleno de gases|humo de los carros|" \
                     "humo del carro|con las puertas cerradas|puertas cerradas y|cierro las puertas|cerre las puertas|cerramos las puertas|" \
                     "carros adentro|carro adentro prendido") \
    WORDS(IS_UNSAFE | IS_ENTERS, "me meto al tunel|entro al tunel|yo mismo adentro|yo misma adentro|voy adentro|yo adentro del") \
    WORDS(IS_CAUGHT, "carro encima de|carro esta encima de|camioneta encima de|le paso encima|le paso el carro encima|lo aplasto el carro")

/* Hidden: what is meant here is no danger. */
#define DANGER_HIDES_ES(HIDES) \
    HIDES("cliente se queja mucho|cliente se quejaba mucho|cliente se quejo mucho|cliente se esta quejando") \
    HIDES("cliente no deja de quejarse|cliente sigue quejandose|clienta se queja mucho|clienta se quejaba mucho") \
    HIDES("clienta se quejo mucho|clienta se esta quejando|clienta no deja de quejarse|clienta sigue quejandose") \
    HIDES("dueno se queja mucho|dueno se quejaba mucho|dueno se quejo mucho|dueno se esta quejando") \
    HIDES("dueno no deja de quejarse|dueno sigue quejandose|duena se queja mucho|duena se quejaba mucho") \
    HIDES("duena se quejo mucho|duena se esta quejando|duena no deja de quejarse|duena sigue quejandose") \
    HIDES("senora del carro se queja mucho|senora del carro se quejaba mucho|senora del carro se quejo mucho") \
    HIDES("senora del carro se esta quejando|senora del carro no deja de quejarse|senora del carro sigue quejandose") \
    HIDES("gente se queja mucho|gente se quejaba mucho|gente se quejo mucho|gente se esta quejando") \
    HIDES("gente no deja de quejarse|gente sigue quejandose|chofer se queja mucho|chofer se quejaba mucho") \
    HIDES("chofer se quejo mucho|chofer se esta quejando|chofer no deja de quejarse|chofer sigue quejandose") \
    HIDES("clientes se quejan mucho|clientes se estan quejando|se quejan mucho los clientes|se quejan mucho las clientes") \
    HIDES("clientas se quejan mucho|clientas se estan quejando|se quejan mucho los clientas|se quejan mucho las clientas") \
    HIDES("duenos se quejan mucho|duenos se estan quejando|se quejan mucho los duenos|se quejan mucho las duenos") \
    HIDES("choferes se quejan mucho|choferes se estan quejando|se quejan mucho los choferes|se quejan mucho las choferes") \
    HIDES("se queja mucho el cliente|se queja mucho la clienta|se queja mucho la gente|se queja mucho de la espuma") \
    HIDES("se quejan mucho de la espuma|se queja mucho del precio|se quejan mucho del precio|se queja mucho de su carro") \
    HIDES("se quejan mucho de su carro|se queja mucho de la secada|se quejan mucho de la secada|se queja mucho del lavado") \
    HIDES("se quejan mucho del lavado|se queja mucho de que el carro|se quejan mucho de que el carro") \
    HIDES("se queja mucho de que la espuma|se quejan mucho de que la espuma|bomba gime|bomba gimio|bomba esta gimiendo") \
    HIDES("bomba se queja mucho|bomba se esta quejando|motor gime|motor gimio|motor esta gimiendo|motor se queja mucho") \
    HIDES("motor se esta quejando|banda gime|banda gimio|banda esta gimiendo|banda se queja mucho|banda se esta quejando") \
    HIDES("cepillo gime|cepillo gimio|cepillo esta gimiendo|cepillo se queja mucho|cepillo se esta quejando") \
    HIDES("compresor gime|compresor gimio|compresor esta gimiendo|compresor se queja mucho|compresor se esta quejando") \
    HIDES("soplador gime|soplador gimio|soplador esta gimiendo|soplador se queja mucho|soplador se esta quejando") \
    HIDES("secadora gime|secadora gimio|secadora esta gimiendo|secadora se queja mucho|secadora se esta quejando") \
    HIDES("turbina gime|turbina gimio|turbina esta gimiendo|turbina se queja mucho|turbina se esta quejando|maquina gime") \
    HIDES("maquina gimio|maquina esta gimiendo|maquina se queja mucho|maquina se esta quejando|cadena gime|cadena gimio") \
    HIDES("cadena esta gimiendo|cadena se queja mucho|cadena se esta quejando|generador gime|generador gimio") \
    HIDES("generador esta gimiendo|generador se queja mucho|generador se esta quejando") \
    HIDES("quemo el foco|se quemo el foco|se quemo la bombilla|quemo la bombilla|quemo el fusible|se quemo el fusible|se quemo un fusible") \
    HIDES("se quemo un foco|foco quemado|fusible quemado|bombilla quemada|luz quemada|lampara quemada|quemamos|quemar un tambor") \
    HIDES("queman un tambor|quema mucho jabon|quema mucho producto|quema jabon|quema producto|manos del trapo|mano de obra|mano derecha") \
    HIDES("mano izquierda|a mano|de segunda mano|a la mano|segunda mano|bajo de|dedos del trapo|brazo del|brazo de|pie de|pie del|pies de") \
    HIDES("pies del|pies antes|pies despues|pies atras|dos pies|pocos pies|pie de la|cabeza del|cabeza de|cabezal|cara del|cara de") \
    HIDES("boca del|boca de|ojo de|ojo del|ojo de la entrada|ojo electrico|ojos electricos|el ojo esta sucio|ojos sucios|cuello de") \
    HIDES("cuello del|piel de|labio de|codo de|codo del|el codo de|espalda del|manga de|pelo del trapo|pelos|gasolinera|gasolina") \
    HIDES("gas de la|agua caliente|agua tibia|cera caliente|espuma caliente|hace calor|dia caliente|dias calientes|sol caliente") \
    HIDES("mucho calor|clima caliente|nube en el cielo|nublado|se muere la espuma|muere la espuma|la espuma se muere|la espuma muere") \
    HIDES("cae la espuma|la espuma cae|se cae la espuma|la espuma se cae|cayo la presion|se cayo la presion|cayo el vacio") \
    HIDES("se cayo la espuma|se callo la espuma|se callo la presion|cayo la espuma|cae del carro|cayo el nivel|se cayo el sistema") \
    HIDES("se cayo el internet|se cayo la senal|la aguja cayo|no cae espuma|no cae|no cae jabon|no cae agua|toque final|dar un toque") \
    HIDES("al toque|retoque|al final|calambre en|corriente de aire|corriente de agua|fuego lento|extintor|extinguidor|extintor de fuego") \
    HIDES("botiquin|paro de emergencia|boton de emergencia|salida de emergencia|luz de emergencia|numero de emergencia|no ayudo|ayudo") \
    HIDES("ayudo mucho|no ayuda|ayuda mucho|si ayudo|ayuda con|ayuda con la|no me ayuda|no ayudo nada|mareado de|harto de|huele bien") \
    HIDES("huele rico|huele a limpio|huele normal|no huele a|no huele|choque de|parachoques|tomo mucho tiempo|toma mucho tiempo") \
    HIDES("tomo la lectura|toma tiempo|tomo nota|tome la lectura|tome nota|se tomo un|tomo un|pega duro|pega muy duro|pega fuerte") \
    HIDES("golpea duro|agarra duro|pega la espuma|pegada|pegado al|pegada en|se queda pegada|muerta la aguja|esta muerta la aguja") \
    HIDES("la aguja esta muerta|aguja muerta|bomba muerta|bomba esta muerta|la bomba esta muerta|tira espuma|tira mucha espuma") \
    HIDES("tira mucho jabon|no tira|no tira espuma|no tira jabon|no tira nada|no tira agua|tira poca|tira poquito|tira aire|no echa") \
    HIDES("no echo|echa espuma|solo tira|chorreado el techo|chorreado|escurre la espuma|se escurre|escurre rapido|se escurre la espuma") \
    HIDES("la espuma se escurre|la espuma escurre|se escurre rapido|la espuma gotea|gotea la espuma|ay que|parte de abajo|parte de atras") \
    HIDES("se sale la espuma|se corta la espuma|se corta|corta la espuma|corto la espuma|se corto la espuma|se corto el agua") \
    HIDES("se corto la luz|se corto el aire|se corto el jabon|corto el agua|muy corto|tiempo corto|queda corto|se queda corta|sin sangre") \
    HIDES("de sangre fria|tipo de|que tipo|un tipo de|solucion|presion de aire|vapor de la|humedo|humedad|polvo de|sangrar la bomba") \
    HIDES("sangramos la bomba|sangre la bomba|sangrar el aire|sangrar la linea|sangramos|sangrar|purgar|llama la atencion") \
    HIDES("llama al tecnico|llamar al tecnico|llame al tecnico|llame al jefe|cierre|acido residual|en el piso no hay|junto al|junto a la") \
    HIDES("todo junto|salio bien|salio limpio|me dio lectura|le dio bien|rojo el foco|foco rojo|luz roja|cara lavada|mi turno|mi nombre") \
    HIDES("mi jefe|mi carro|su carro|su coche|su antena|su espejo|mi espejo|humo de los carros|humo del escape|humo del carro") \
    HIDES("mano de pintura|me dijo|me queje|le puse|le falta|le falta jabon|se murio la bomba|se murio el motor|se muere la bomba") \
    HIDES("ahoga la bomba|bomba se ahoga|la bomba se ahoga|se ahoga la bomba|se disparo la bomba|se disparo el breaker") \
    HIDES("se disparo el termico|bota la pastilla|se boto la pastilla|se boto el breaker|en la cara del|en la cara de la|en la boca del") \
    HIDES("en la boca de la|en la mano del|en la cabeza del|en la cabeza de la|en el brazo del|en el pie de|en la espalda del")

#endif
