/* How people answer, whatever they speak of: yes and no, all is well, not knowing (DONT_KNOW only
 * if nothing follows: "no se mueve"), not being able, as usual; what denies, what joins, what says
 * nothing; and what a whole reply is to an offer or a thing to do. English and Spanish, written as
 * unicode_plain folds them; phrases are separated by "|". MANNER(class, phrases). */
#ifndef TT_LISTEN_MANNER_WORDS_H
#define TT_LISTEN_MANNER_WORDS_H

/* clang-format off */

#define MANNER_WORDS(MANNER) \
    MANNER(YES, "yes|yeah|yep|yup|yea|ya|y|yess|yes sir|yes maam|sure|of course|correct|right|true|affirmative|indeed|it does|it is|they do|" \
                "they are|there is|si|sip|simon|claro|claro que si|asi es|correcto|cierto|afirmativo|por supuesto|desde luego|ey|ajam|aja|" \
                "uh huh|yes it does|yes it is|si hay") \
    MANNER(NO, "no|nope|nah|nop|n|not at all|no sir|no maam|negative|it doesnt|it does not|it isnt|they dont|they arent|there isnt|" \
               "there is not|not really|none|nothing|nothing at all|never|nada|nel|para nada|negativo|ninguno|ninguna|no hay|no hay nada|" \
               "de ninguna manera|nunca|none of them|nada de nada|not one|not any|nadie|nobody|no one") \
    MANNER(FINE, "all fine|all good|all ok|all okay|all clear|everything fine|everything ok|everything okay|everything is fine|" \
                 "everything is ok|everything is okay|everything is good|everything good|everything is normal|everything is safe|" \
                 "everything safe|all safe|its safe|it is safe|safe|were good|we good|we are good|were fine|we are fine|were ok|we are ok|" \
                 "were all good|its all good|it is all good|its all fine|its fine|it is fine|im fine|im ok|everybody is fine|everybody is ok|" \
                 "everybody fine|everyone is fine|everyone is ok|everybody ok|everyone ok|everyone fine|no problem|no problems|no danger|" \
                 "no issues|no issue|no trouble|nothing dangerous|nothing like that|nothing bad|nothing wrong|nothing unusual|nothing to see|" \
                 "nothing going on|nothing here|no worries|coast is clear|looks fine|looks good|looks ok|looks safe|looks normal|seems fine|" \
                 "seems ok|all normal|all is well|all is good|all is fine|all is ok|fine|normal|clear|calm|quiet|as usual|like always|" \
                 "like usual|all quiet|nothing happened|no emergency|no hazard|no hazards|not dangerous|nothing is wrong|its ok|it is ok|" \
                 "its okay|its good|it is good|everything looks good|everything looks fine|everything looks ok|everything seems fine|" \
                 "everything works|no dangers|all well|nothing serious|no one is hurt|nobody is hurt|nobody hurt|perfectly safe|in order|all in order|everything in order|everything is in order|en orden|todo bien|" \
                 "todo ok|todo tranquilo|todo normal|todo en orden|todo esta bien|todo seguro|todo limpio|esta todo bien|todos bien|" \
                 "todos estan bien|todo esta normal|todo esta tranquilo|todo good|bien|tranquilo|seguro|es seguro|esta seguro|sin peligro|" \
                 "sin problema|sin problemas|sin novedad|no hay peligro|no hay problema|no hay problemas|no pasa nada|nada peligroso|" \
                 "nada malo|nada raro|nada de eso|nada por el estilo|ningun problema|ningun peligro|nada grave|no es peligroso|no hay riesgo|" \
                 "sin riesgo|estamos bien|estoy bien|todo calmado|todo correcto|todo va bien|se ve bien|como siempre|como de costumbre|" \
                 "perfect|perfecto|great|excellent|excelente|works great|working great|works fine|works good|looks great|looks perfect|" \
                 "runs fine|running fine|trabaja bien|funciona bien|jala bien|esta perfecto") \
    MANNER(UNSURE, "unsure|not sure|im not sure|i am not sure|not certain|dont know|do not know|i dont know|i do not know|dunno|i dunno|idk|" \
                   "no idea|no clue|i have no idea|yo no se|no lo se|ni idea|quien sabe|sepa|saber|no estoy seguro|no estoy segura|" \
                   "no tengo idea|hard to say|hard to tell|cant say|cannot say|cant tell|can not tell|cannot tell|who knows|beats me|maybe|" \
                   "perhaps|possibly|might be|could be|not that i know|dont remember|i dont remember|i forgot|no me acuerdo|quizas|quiza|" \
                   "tal vez|talvez|puede ser|puede que|a lo mejor|creo que no|creo que si|creo que|creo|i think so|i think|i think not|i guess|" \
                   "i dont think so|dont think so|probably|probably not|parece que no|parece que si|i believe|no estoy muy seguro|mas o menos|" \
                   "either|not clear|unclear|depends|sort of|kind of|kinda|no te sabria decir|ni se|dont no|donno|i dont no|dk|unknown|" \
                   "desconozco|no sabria|hmm|who cares|not really sure|dont know which|which one|which number|no se cual|cual de los|" \
                   "no se lee bien|no se bien|no sabe|ni idea de|hmm not sure|im guessing|just guessing|guessing|no estoy cierto|hard to see|" \
                   "no se si|no se que|no se la|no se sabe|no se nada") \
    MANNER(SUPPOSES, "i think|i believe|i guess|probably|maybe|perhaps|possibly|might be|could be|creo|creo que|quizas|quiza|tal vez|" \
                     "talvez|a lo mejor|puede ser|puede que") \
    MANNER(HOW_MANY, "all|both|every|each|some|several|few|todo|todos|todas|ambos|ambas|algunos|algunas|varios|varias|cada") \
    MANNER(DONT_KNOW, "no se|no c|nop se") \
    MANNER(HEDGES, "from here|desde aqui|from what i see|as far as i can see|as far as i know|not as far as i know|no que yo sepa|que yo sepa|" \
                   "que yo sepa no|not that i see|not that i can see|not that i saw|i hope|i hope not|hope not|hopefully|hopefully not|" \
                   "espero que no|espero|ojala|ojala que no|not yet|yet|todavia no|aun no|todavia|almost|casi|i suppose|supongo|i assume|" \
                   "should be|should|debe estar|se supone|supuestamente|seems|seem|looks like|parece|no sure|anymore|no more|ya no|was|habia|" \
                   "estaba|before|earlier|antes|stopped|paro|hace rato|most|mostly|except|but|however|pero|menos|excepto|salvo|only|just|solo|" \
                   "nomas|nada mas|unless|until|if|when|cuando|hasta|wait|espera|hold on|well|bueno|actually|or|o|who|why|what|que|como") \
    MANNER(CANNOT, "cannot|can not|cant|i cant|i cannot|cant do|cant do it|cant do that|cant see|cannot see|can not see|cant see it|" \
                   "cant see from here|cant look|cant get there|cant reach|cant read|cant read it|cant check|cant measure|cant find it|" \
                   "cant find|unable|not possible|impossible|skip|skip it|skip this|pass|next|no puedo|no se puede|no puedo ver|no se ve|" \
                   "no veo|no alcanzo|no puedo leer|no puedo llegar|no lo puedo ver|no la puedo ver|no puedo hacerlo|saltar|paso|siguiente|" \
                   "brincar|omitir|imposible|not allowed|not able|not able to|i am not allowed|im not allowed|dont have one|no gauge|" \
                   "there is no gauge|no hay manometro|no tengo|no lo veo|no la veo|no vi|didnt see|did not see|couldnt see|could not see|" \
                   "havent looked|didnt look|no mire|out of reach|no lo encuentro|cant get|cant get to|cant get near|cant hear|cant hear it|" \
                   "cannot hear|i cant get|is locked|its locked|locked|no key|dont have the key|gauge is broken|gauge broken|broken gauge|" \
                   "gauge missing|no gauge here|there is none|not there|is closed|its closed|closed off|no llego|no alcanzo a verlo|" \
                   "no alcanzo a ver|no tengo llave|no tengo la llave|esta cerrado|esta cerrada|con llave|esta roto|esta rota|" \
                   "roto el manometro|no se oye|no se alcanza a ver|no se alcanza|no se distingue|no hay reloj|saltala|saltalo|brincala|" \
                   "pasala|siguela|skip that|skip it please|next question|move on|cant open|cant tell from here|too dark|esta oscuro|too far|" \
                   "muy lejos|fogged up|cant see through|not allowed in|we dont have|dont have that|no la tenemos|no lo tenemos|i didnt look|" \
                   "not looked|no vi bien|no pude|no pude ver|could not|couldnt|couldnt tell") \
    MANNER(USUAL, "normal|ok|okay|okey|fine|good|as usual|like usual|like always|as always|same as always|same as usual|regular|normally|" \
                  "standard|all good|looks good|looks fine|looks ok|looks normal|as it should|like it should|as it should be|nothing special|" \
                  "nothing unusual|alright|all right|perfect|great|just fine|bien|normal como siempre|como siempre|como de costumbre|" \
                  "todo bien|se ve bien|esta bien|lo normal|lo de siempre|igual que siempre|bueno|perfecto|correct|correcto|works|working|" \
                  "it works|funciona|funciona bien|sirve|as on other days|like other days|like every day|como todos los dias") \
    MANNER(BROKEN, "dead|dark|off|out|stuck|stays put|stays still|stays dark|stays off|stays|still|silent|nothing|broken|not working|" \
                   "doesnt work|does not work|frozen|gone|never|no light|no movement|no sound|motionless|shut|burned out|burnt out|blown|" \
                   "unlit|black|muerto|muerta|apagado|apagada|nada|quieto|quieta|parado|parada|no funciona|no sirve|no trabaja|fundido|" \
                   "fundida|fijo|fija|inmovil|callado|callada|no hace nada|sin luz") \
    MANNER(WORKS, "comes on|come on|turns on|lights up|lit|glows|is on|its on|works|working|goes|moves|runs|does|prende|se prende|enciende|" \
                  "se enciende|prendido|prendida|encendido|encendida|funciona|trabaja|sirve|jala|se mueve|corre|anda|prende bien|stays on|" \
                  "goes on|is lit|se ve|esta prendido|esta prendida") \
    MANNER(DONE, "done|finished|ready|did it|i did|all done|complete|completed|listo|lista|hecho|ya esta|ya quedo|terminado|acabe|termine|" \
                 "its done|it is done|fixed|arreglado|ya lo hice") \
    MANNER(DENIES, "no|not|never|without|isnt|is not|arent|wasnt|werent|dont|doesnt|didnt|do not|does not|did not|havent|hasnt|hadnt|aint|" \
                   "cant|cannot|can not|wont|will not|couldnt|wouldnt|nor|neither|none|nothing|nobody|no one|nada|nadie|sin|ningun|ninguna|" \
                   "ninguno|nunca|tampoco|ni|jamas|barely|hardly|dosent|dosnt|dont get no|cero|zero|ya no|no longer|no more|stopped|quit|" \
                   "rather than|instead of|en vez de|it isnt|it is not|it doesnt|it does not|they dont|they arent|there isnt|there is not|" \
                   "not really|not any|no se|none of|not one|no hay") \
    MANNER(JOINS, "and|also|plus|and also|then|but|but also|while|because|so|now|y|e|tambien|ademas|pero|mientras|porque|y tambien|asi que|" \
                  "entonces|nor|or|o|u|ni") \
    MANNER(EMPTY, "a|an|the|of|to|is|are|am|was|were|be|been|being|it|its|this|that|these|those|there|theres|here|i|im|ive|we|weve|you|u|he|" \
                  "she|they|my|our|your|me|us|them|his|her|their|in|at|on|by|for|from|as|like|just|very|really|so|some|any|all|do|does|did|" \
                  "has|have|had|can|could|will|would|should|may|might|get|gets|got|getting|go|goes|going|went|come|comes|coming|came|please|" \
                  "pls|hi|hello|hey|ok|okay|well|um|uh|er|oh|yes|what|which|who|how|when|where|why|if|than|say|says|said|see|look|looks|think|" \
                  "thing|things|stuff|again|still|today|now|bit|little bit|kind|sort|about|lot|much|more|most|one|ones|too|up|out|off|down|" \
                  "into|el|la|los|las|un|una|unos|unas|lo|le|les|se|de|del|al|en|por|para|pa|es|esta|estan|son|era|ser|estar|que|como|muy|mas|" \
                  "bien|ya|te|nos|mi|su|sus|hay|este|esto|ese|eso|esa|estos|estas|aqui|ahi|alli|alla|hoy|ahora|ahorita|pues|porfavor|favor|" \
                  "hola|oye|cuando|donde|porque|si|todo|toda|todos|todas|algo|tiene|tienen|tengo|ta|toy|va|van|voy|fue|ha|han|sido|ver|veo|" \
                  "parece|sale|salen|queda|quedan|quedo|hace|hacen|da|dan|looked|checked|saw|mire|revise|vi|all around|around|so far")

/* What a whole reply is to something that was offered, or to be done; inside of a sentence these
 * words say nothing of the kind. Agreeing (OFFER) says of nothing that it is done; to begin (BEGINS),
 * nothing of what is meant. */
#define REPLY_WORDS(MANNER) \
    MANNER(OFFER, "ok|okay|okey|alright|all right|vale|bueno|de acuerdo|y|yes|si") \
    MANNER(BEGINS, "go|go on|begin|start|continue|adelante|sigue|seguir|empieza|empezar") \
    MANNER(GONE, "y|yes|yeah|yep|yup|yes it did|it did|it did help|it helped|yes it helped|si|gone|fixed|it works|works|works now|" \
                 "it works now|it is gone|its gone|all gone|all good|good now|its good now|solved|funciona|ya funciona|se arreglo|" \
                 "ya se arreglo|se quito|ya se quito|ya no hay|si ayudo|ya quedo|arreglado") \
    MANNER(SAME, "n|no|nope|nah|same|the same|its the same|it is the same|no difference|no change|nothing changed|still the same|" \
                 "still there|not yet|nothing|it did not|it didnt|did not help|didnt help|it did not help|no help|igual|lo mismo|" \
                 "sigue igual|esta igual|nada|todavia no|no cambio|no ayudo|sin cambio") \
    MANNER(WORSE, "worse|it is worse|its worse|it is worse now|its worse now|got worse|it got worse|now it is worse|much worse|" \
                  "even worse|peor|esta peor|se puso peor|quedo peor|empeoro|mucho peor") \
    MANNER(BETTER, "better|its better|it is better|a bit better|a little better|little better|some better|bit better|mejor|esta mejor|" \
                   "un poco mejor|algo mejor") \
    MANNER(COULD_NOT, "i can not|i cant|i could not|could not|couldnt|i couldnt|cant|can not|cannot|i cannot|cant do it|i cant do it|" \
                      "no pude|no puedo|not allowed|i must not|im not allowed|not able|skip|unable|no se puede")

/* clang-format on */

#endif
