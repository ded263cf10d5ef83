/* What sounds like a no or like "all is well" and, at the danger question, is neither by itself.
 * Written as unicode_plain folds it; phrases are separated by "|". GATE(class, phrases). */
#ifndef TT_LISTEN_GATE_WORDS_H
#define TT_LISTEN_GATE_WORDS_H

typedef enum gate_word {
    GATE_BESIDE = 1 << 0, /* of a machine, of one person, of what is usual, "I will": it leaves open
                             what else there is. Harmless beside a no. */
    GATE_HALF_NO =
        1 << 1, /* "not really": something is there, only not much of it; or others say so */
    GATE_BLIND = 1 << 2, /* "I can't see!": from here, or any more */
    GATE_WHO = 1 << 3,   /* who can't, and when */
} gate_word;

/* clang-format off */

#define GATE_WORDS(GATE) \
    GATE(BESIDE, "nobody|no one|nadie|it doesnt|it does not|it isnt|they dont|they arent|im fine|im ok|estoy bien|no worries|no emergency|" \
                 "nobody is hurt|nobody hurt|no one is hurt|as usual|like usual|like always|como siempre|como de costumbre|looks fine|" \
                 "looks good|looks ok|looks safe|looks normal|looks great|looks perfect|se ve bien|works great|working great|works fine|" \
                 "works good|runs fine|running fine|everything works|trabaja bien|funciona bien|jala bien|esta perfecto") \
    GATE(HALF_NO, "not really|nothing serious|nada grave|never|nunca|seems fine|seems ok|everything seems fine|they say|he says|she says|they said|" \
                  "he said|she said|boss says|boss said|i was told|they told me|dicen|dice|segun|me dijeron|me dijo") \
    GATE(BLIND, "cant see|cannot see|can not see|cant see anymore|cant see any more|no veo|no ve|no puedo ver|no puede ver|ya no veo|blind") \
    GATE(WHO, "i|im|he|she|we|me|my|now|please|help|yo|el|ella|ya|ahora|ayuda|por favor")

/* clang-format on */

#endif
