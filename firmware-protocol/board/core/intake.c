#include "intake.h"

#include <string.h>

#include "crc.h"
#include "text.h"

/* Of each word so much is kept: the longest that is looked into is an unknown field's name of 32 and its equals sign. */
#define WORD_KEPT 40
/* Space, tilde and four digits: what follows the checked characters. It is known to be that only once the LF has come. */
#define TAIL 6
/* Unknown fields of one line whose names are compared; a command with more of them is not taken. */
#define NAMES_KEPT 8

static struct {
    uint16_t length;
    uint16_t check;
    char tail[TAIL];
    char word[WORD_KEPT + 1];
    uint16_t word_length;
    uint8_t words;
    uint8_t names;
    uint16_t name_checks[NAMES_KEPT];
    /* Nothing of this line is used. */
    bool dropped;
    struct command command;
    bool has_number;
} line;

static void begin_line(bool dropped)
{
    memset(&line, 0, sizeof line);
    line.check = CRC_START;
    line.dropped = dropped;
}

void intake_restart(void)
{
    begin_line(true);
}

static bool is_text(const char *kept, const char *text)
{
    char each;
    while ((each = text_byte(text)) != 0) {
        if (*kept++ != each) return false;
        text++;
    }
    return *kept == 0;
}

/* If the word begins with this name and an equals sign: its value. */
static const char *value_of(const char *name)
{
    const char *kept = line.word;
    char each;
    while ((each = text_byte(name)) != 0) {
        if (*kept++ != each) return 0;
        name++;
    }
    return *kept == '=' ? kept + 1 : 0;
}

/* A decimal integer without sign or leading zero, not above the highest. */
static bool number_of(const char *digits, uint32_t highest, uint32_t *number)
{
    uint32_t sum = 0;
    if (*digits == 0 || (*digits == '0' && digits[1] != 0)) return false;
    for (; *digits != 0; digits++) {
        uint8_t digit = (uint8_t)(*digits - '0');
        if (digit > 9 || sum > highest / 10) return false;
        sum = sum * 10;
        if (digit > highest - sum) return false;
        sum += digit;
    }
    *number = sum;
    return true;
}

static void take_kind(void)
{
    uint8_t kind = COMMAND_UNKNOWN;
    if (is_text(line.word, TEXT("ask-hello"))) kind = COMMAND_ASK_HELLO;
    else if (is_text(line.word, TEXT("period"))) kind = COMMAND_PERIOD;
    else if (is_text(line.word, TEXT("send-again"))) kind = COMMAND_SEND_AGAIN;
    else if (is_text(line.word, TEXT("lamp"))) kind = COMMAND_LAMP;
    else if (is_text(line.word, TEXT("horn"))) kind = COMMAND_HORN;
    else if (is_text(line.word, TEXT("permission"))) kind = COMMAND_PERMISSION;
    else if (is_text(line.word, TEXT("heartbeat"))) kind = COMMAND_HEARTBEAT;
    /* What boards send is known and no command: such a line is the board's own, come back to it. */
    else if (is_text(line.word, TEXT("hello")) || is_text(line.word, TEXT("sample")) || is_text(line.word, TEXT("reply")))
        line.dropped = true;
    line.command.kind = kind;
}

static bool has_value(void)
{
    return line.command.kind == COMMAND_PERIOD || line.command.kind == COMMAND_SEND_AGAIN
        || line.command.kind == COMMAND_LAMP || line.command.kind == COMMAND_HORN
        || line.command.kind == COMMAND_PERMISSION;
}

static void take_number(void)
{
    uint32_t number;
    const char *value = value_of(TEXT("command"));
    if (value == 0 || !number_of(value, 65535u, &number)) {
        line.dropped = true;
        return;
    }
    line.command.number = (uint16_t)number;
    line.has_number = true;
}

/* The place of the word in its list, or 255. */
static uint8_t state_of(const char *value)
{
    switch (line.command.kind) {
    case COMMAND_LAMP:
        if (is_text(value, TEXT("off"))) return LAMP_OFF;
        if (is_text(value, TEXT("on"))) return LAMP_ON;
        if (is_text(value, TEXT("slow"))) return LAMP_SLOW;
        if (is_text(value, TEXT("fast"))) return LAMP_FAST;
        return 255;
    case COMMAND_HORN:
        return is_text(value, TEXT("off")) ? 0 : is_text(value, TEXT("on")) ? 1 : 255;
    default:
        return is_text(value, TEXT("withheld")) ? 0 : is_text(value, TEXT("given")) ? 1 : 255;
    }
}

static void take_value(void)
{
    const char *value;
    bool fits = false;
    if (line.command.kind == COMMAND_PERIOD) {
        value = value_of(TEXT("milliseconds"));
        fits = value != 0 && number_of(value, PERIOD_HIGHEST, &line.command.value) && line.command.value >= PERIOD_LOWEST;
    } else if (line.command.kind == COMMAND_SEND_AGAIN) {
        value = value_of(TEXT("from"));
        fits = value != 0 && number_of(value, 0xFFFFFFFFu, &line.command.value);
    } else {
        value = value_of(TEXT("state"));
        line.command.value = value == 0 ? 255 : state_of(value);
        fits = line.command.value != 255;
    }
    if (!fits) line.dropped = true;
}

static bool is_name(const char *word, uint8_t length)
{
    if (length < 1 || length > 32 || word[0] < 'a' || word[0] > 'z') return false;
    for (uint8_t index = 0; index < length; index++) {
        char each = word[index];
        bool fits = (each >= 'a' && each <= 'z') || (each >= '0' && each <= '9') || each == '-';
        if (!fits) return false;
    }
    return true;
}

/* A field that this board does not know: it is skipped, but it has to be a field, and of a name not used before. */
static void take_unknown(void)
{
    const char *equals = strchr(line.word, '=');
    uint8_t length = equals == 0 ? 0 : (uint8_t)(equals - line.word);
    uint16_t check = CRC_START;
    bool fits = is_name(line.word, length) && line.word_length > length + 1u && line.names < NAMES_KEPT;
    fits = fits && value_of(TEXT("command")) == 0;
    if (line.command.kind == COMMAND_PERIOD) fits = fits && value_of(TEXT("milliseconds")) == 0;
    else if (line.command.kind == COMMAND_SEND_AGAIN) fits = fits && value_of(TEXT("from")) == 0;
    else if (has_value()) fits = fits && value_of(TEXT("state")) == 0;
    for (uint8_t index = 0; index < length; index++) check = crc_add(check, (uint8_t)line.word[index]);
    for (uint8_t index = 0; index < line.names; index++) fits = fits && line.name_checks[index] != check;
    if (fits) line.name_checks[line.names++] = check;
    else line.dropped = true;
}

static void end_word(void)
{
    /* Two spaces, or one at an end. */
    if (line.word_length == 0) line.dropped = true;
    if (!line.dropped) {
        uint8_t place = line.words;
        line.word[line.word_length < WORD_KEPT ? line.word_length : WORD_KEPT] = 0;
        if (place == 0) take_kind();
        else if (place == 1) take_number();
        else if (line.command.kind == COMMAND_UNKNOWN) {
            /* Nothing is known of what else such a line may hold. */
        } else if (place == 2 && has_value()) take_value();
        else take_unknown();
    }
    if (line.words < 255) line.words++;
    line.word_length = 0;
}

static void take_checked(char character)
{
    line.check = crc_add(line.check, (uint8_t)character);
    if (character == ' ') {
        end_word();
        return;
    }
    if (line.word_length < WORD_KEPT) line.word[line.word_length] = character;
    line.word_length++;
}

/* The tail is a ring: its oldest character stands where the next one will. */
static char tail_at(uint8_t place)
{
    return line.tail[(uint8_t)((line.length + place) % TAIL)];
}

static bool check_is_right(void)
{
    uint16_t said = 0;
    if (line.length < TAIL || tail_at(0) != ' ' || tail_at(1) != '~') return false;
    for (uint8_t place = 2; place < TAIL; place++) {
        char digit = tail_at(place);
        uint8_t value;
        if (digit >= '0' && digit <= '9') value = (uint8_t)(digit - '0');
        else if (digit >= 'a' && digit <= 'f') value = (uint8_t)(digit - 'a' + 10);
        else return false;
        said = (uint16_t)(said << 4 | value);
    }
    return said == line.check;
}

static bool end_line(struct command *command)
{
    bool whole;
    end_word();
    whole = !line.dropped && check_is_right() && line.has_number && (!has_value() || line.words >= 3);
    *command = line.command;
    begin_line(false);
    return whole;
}

bool intake_take(uint8_t byte, struct command *command)
{
    char *place;
    if (byte == '\n') return end_line(command);
    if (byte < 0x20 || byte > 0x7E || line.length >= LINE_MAXIMUM) line.dropped = true;
    if (line.dropped) return false;
    place = &line.tail[line.length % TAIL];
    if (line.length >= TAIL) take_checked(*place);
    *place = (char)byte;
    line.length++;
    return false;
}
