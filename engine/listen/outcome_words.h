/* What people say of a fix that was tried: that it helped, or not, that all is worse, that it was
 * not done. English and Spanish, written as unicode_plain folds them; phrases are separated by "|".
 * OUTCOME(class, phrases). A reply is heard as a row of these (hear_outcome.c); a word that is none
 * of them makes it say more than an outcome. */
#ifndef TT_LISTEN_OUTCOME_WORDS_H
#define TT_LISTEN_OUTCOME_WORDS_H

/* clang-format off */

/* STATE: says that all is well only beside another word: "ok" alone agrees to nothing. ABLE and TRIED
 * are said of what was not done, with a denial (MADE also of the fix: "it was not done"); COULD_NOT and NOT_DONE say it by themselves. EITHER
 * carries a denial on: "not better or worse". FIRM: behind an English "no" a sentence of its own begins. BARE: a request as much as
 * an outcome, but for "it did not". THING: what could not be turned; whether it helped is not said of it. EASY, and MORE where it
 * is better: all that may stand beside words that say it helped. ASKS: begins a question or a request. */
#define OUTCOME_WORDS(OUTCOME) \
    OUTCOME(WORSE, "worse|worst|worsened|worsens|worsening|worser|something new|something new happened|something else happened|" \
                   "something happened|new problem|another problem|new trouble|another trouble|peor|peores|empeoro|empeora|empeoraron|" \
                   "empeorando|ha empeorado|empeorado|mas mal|algo nuevo|otra falla|otro problema|falla nueva|problema nuevo|nueva falla|" \
                   "nuevo problema|paso algo|se descompuso mas|mas descompuesto") \
    OUTCOME(BETTER, "better|looks better|look better|se ve mejor|va mejor|salio mejor|salio un poco mejor|mas o menos mejor|improved|improves|improving|improvement|mejor|mejores|mejoro|mejora|mejoria|mejorado|mejorando|mejoraron") \
    OUTCOME(PARTLY, "almost there|not there yet|ya casi|partly|partially|in part|a bit|bit|a little|little|a little bit|somewhat|slightly|some|a tad|halfway|un poco|poco|" \
                    "not quite|not completely|not entirely|not fully|not all the way|no del todo|no completamente|no por completo|" \
                    "poquito|un poquito|algo|en parte|parcialmente|a medias") \
    OUTCOME(HELPED, "helped|helps|worked|it did help|it did work|ayudo|ayudado|ayudaron|sirvio|funciono") \
    OUTCOME(FIXED, "fixed|ya sale bien|sale bien|gone|solved|resolved|cured|repaired|works|working|runs|running|back to normal|that did it|did the trick|" \
                   "like a charm|all good|works now|thats it|went away|arreglo|arreglado|arreglada|quito|quitado|" \
                   "resuelto|resuelta|resolvio|soluciono|solucionado|funciona|funcionando|jala|trabaja|sirve|ya quedo|con eso quedo|" \
                   "ya no hay|desaparecio") \
    OUTCOME(BARE, "help|work|fix|solve|cure|ayuda|ayudar|arregla|arreglar|funcionar|servir") \
    OUTCOME(STATE, "good|fine|ok|okay|okey|normal|right|perfect|great|perfectly|bien|correcto|perfecto|correcta|perfecta") \
    OUTCOME(BAD, "bad|wrong|broken|mal|malo|mala|roto|rota") \
    OUTCOME(YES, "y|yes|yeah|yep|yup|si|yes it did|it did|yes it helped") \
    OUTCOME(NO, "n|no|nope|nah") \
    OUTCOME(NOT, "not|didnt|did not|doesnt|does not|dont|do not|isnt|is not|arent|wasnt|was not|werent|havent|have not|hasnt|has not|" \
                 "never|without|none|nothing|nobody|no one|hardly|barely|nor|neither|nada|ningun|ninguna|ninguno|sin|nunca|tampoco|ni|" \
                 "nadie|no longer|not yet|todavia no|aun no|it did not|wont|will not|wouldnt|would not") \
    OUTCOME(SAME, "no luck|nothing happened|no le hizo nada|para nada|same|unchanged|still there|it did nothing|igual|iguales|mismo|misma|sigue ahi") \
    OUTCOME(STILL, "still|sigue|siguen|todavia|aun|continua|continues|keeps|remains") \
    OUTCOME(CHANGE, "change|changed|changes|difference|different|effect|matter|cambio|cambios|cambia|cambiado|diferencia|diferente|" \
                    "efecto|do much|done much|done anything|the trick|do the trick|do anything|do a thing|do nothing") \
    OUTCOME(PROBLEM, "problem|trouble|issue|fault|problema|falla|averia") \
    OUTCOME(COULD_NOT, "cant|cannot|can not|couldnt|could not|cldnt|coudnt|couldn|unable|impossible|not possible|imposible|failed to|" \
                       "i failed|no way to|no time|gave up|give up|giving up|not allowed|must not|dont know how|do not know how|" \
                       "didnt know how|did not know how|no se como|no supe|no supe como|me rendi|no me dejan|no me dejaron|skip|" \
                       "dont dare|did not dare|didnt dare|too hard|too tight|not strong enough|no me atrevi|no me atrevo|no se deja|" \
                       "no quise|no quiero|skip it|didnt get to it|did not get to it") \
    OUTCOME(ABLE, "could|can|able|manage|managed|possible|allowed|succeed|succeeded|reach|get to|know how|pude|pudo|pudimos|puedo|puede|" \
                  "podemos|podia|pudieron|podido|posible|logre|logro|logramos|logra|lograr|logrado|alcance|alcanzo|alcanzamos|capaz|" \
                  "tiempo|time") \
    OUTCOME(NOT_DONE, "skipped|skipped it|left it|left it alone|left it as it was|me lo salte|lo salte|lo deje|lo deje asi|lo dejamos|" \
                      "no se hizo|nadie lo hizo|not been done|never got round to it|never got to it|todavia no lo hago|aun no lo hago") \
    OUTCOME(TRIED, "do|did|try|trying|attempt|touch|start|begin|hice|hicimos|hacer|hacerlo|hacerla|intente|intento|intentamos|intentar|" \
                   "probe|probamos|probar|toque|toco|tocamos|empece|do anything|do a thing|do nothing") \
    OUTCOME(MADE, "done|tried|attempted|touched|started|begun|hecho|hecha|intentado|probado|tocado|empezado") \
    OUTCOME(FILL, "turn|open|close|find|finish|move|set|adjust|loosen|remove|take|put|be|make|get|terminar|girar|abrir|cerrar|alcanzar|" \
                 "llegar|encontrar|mover|moverlo|moverla|ajustar|cambiar|quitar|poner") \
    OUTCOME(IT, "it|its|that|this|eso|esto|thats|it did not") \
    OUTCOME(PERSON, "i|we|he|she|they|you|im|ive|weve|yo|nosotros|ella|ellos") \
    OUTCOME(FIRM, "now|ahora|its|it|it is|this|that|eso|esto|it got|they|i|we") \
    OUTCOME(EITHER, "or|o|nor|ni|neither") \
    OUTCOME(JOINS, "and|but|y|pero|though|aunque|because|porque|so|then") \
    OUTCOME(YET, "yet") \
    OUTCOME(PAST, "before|antes|estaba|era|was|were|until|hasta|for a while|un rato|at first|al principio|casi|almost") \
    OUTCOME(DOUBT, "right now|ahora mismo|if|might|may|maybe|perhaps|would|should|hope|could be|can be|not sure if|dont know if|do not know if|quiza|quizas|" \
                   "tal vez|talvez|puede que|puede ser|podria|a lo mejor|ojala|espero|no se si|no se que") \
    OUTCOME(HEDGE, "think|guess|probably|seems|creo|parece") \
    OUTCOME(LOOK, "look|looks|looking") \
    OUTCOME(DEGREE, "thanks|thank you|gracias|kind of|sort of|oh|uy|ok so|very|really|so|even|well|just|only|please|sir|sorry|muy|mucho|mucha|perdon|por favor|jefe") \
    OUTCOME(FILL, "a|an|the|of|to|is|are|am|be|been|being|has|have|had|get|got|gets|getting|going|goes|went|made|make|" \
                  "makes|making|much|lots|lot|a lot|way|far|off|me|any|anything|at all|all|everything|again|back|" \
                  "more|than|than before|as before|like before|anymore|any more|with|in|on|for|by|myself|el|la|lo|los|las|le|me|se|nos|un|una|de|del|al|a|con|en|por|esta|estan|es|son|fue|fui|" \
                  "ha|he|hay|hubo|hemos|han|haber|ya|ahorita|mas|todo|toda|todos|que|que antes|como antes|mas o menos|" \
                  "del todo|cada vez|puso|pone|quedo|queda|vez|sido|mi|su|tuve|tuvimos|listo|hace") \
    OUTCOME(THING, "one|step|knob|valve|screw|nut|nozzle|perilla|valvula|tornillo|tuerca") \
    OUTCOME(EASY, "con eso|listo|a|the|is|are|has|have|been|got|all|everything|again|el|la|se|lo|le|ya|ahorita|esta|estan|ha|fue|quedo|todo|toda") \
    OUTCOME(MORE, "much|lots|lot|a lot|way|far|mas|than before|que antes|un|quite|bastante") \
    OUTCOME(ASKS, "is|are|did|does|do|can|could|make|get|try|trying|please|to|be|being|puede|por favor")

/* clang-format on */

#endif
