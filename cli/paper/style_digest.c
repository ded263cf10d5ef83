#include <sha256.h>
#include <stdint.h>
#include <string.h>

#include "host/plain_text.h"
#include "paper/page_style.h"

char *base64_of(const uint8_t *bytes, size_t count)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    char *text = take_memory((count + 2) / 3 * 4 + 1), *to = text;
    for (size_t i = 0; i < count; i += 3) {
        uint32_t three = (uint32_t)bytes[i] << 16;
        if (i + 1 < count) three |= (uint32_t)bytes[i + 1] << 8;
        if (i + 2 < count) three |= bytes[i + 2];
        for (unsigned k = 0; k < 4; k++)
            *to++ = i + k > count ? '=' : letters[three >> (18 - 6 * k) & 63];
    }
    return text;
}

char *text_digest(const char *text, size_t length)
{
    uint8_t digest[SHA256_DIGEST_LENGTH];
    SHA2_CTX context;
    SHA256Init(&context);
    SHA256Update(&context, (const uint8_t *)text, length);
    SHA256Final(digest, &context);
    return base64_of(digest, sizeof digest);
}

char *page_style_digest(void)
{
    return text_digest(page_style, strlen(page_style));
}
