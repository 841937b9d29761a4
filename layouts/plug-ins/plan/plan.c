/* An output in C without any library: the plan of a layout in plain characters, for a terminal or a mail.
 *
 * clang --target=wasm32 -O2 -nostdlib -ffreestanding -fuse-ld=lld -Wl,--no-entry -Wl,--strip-all plan.c -o plain.wasm
 *
 * The question has only what `describe` names, in the order of the published form, so a scanner for the few keys is enough. */

#define EXPORT(name) __attribute__((export_name(name)))
#define IMPORT(name) __attribute__((import_module("boxwright"), import_name(name)))

typedef unsigned int size;

IMPORT("answer") void answer(const char *at, size length);

/* Millimetres of a character along and of a line across. */
enum { ALONG = 100, ACROSS = 200, MOST_ALONG = 200, MOST_ACROSS = 60, MOST_MODULES = 52, LONGEST = 64 };

static char grid[MOST_ACROSS][MOST_ALONG];
static char names[MOST_MODULES][LONGEST];
static int long_x, long_y, modules;

extern unsigned char __heap_base;

/* Room for the question, behind everything else; memory grows where it has to. */
EXPORT("room") char *room(size length) {
    size start = (size)&__heap_base, have = __builtin_wasm_memory_size(0) * 65536;
    if (start + length > have)
        __builtin_wasm_memory_grow(0, (start + length - have + 65535) / 65536);
    return (char *)start;
}

static size length_of(const char *text) {
    size length = 0;
    while (text[length])
        length++;
    return length;
}

static void say(const char *text) { answer(text, length_of(text)); }

EXPORT("describe") void describe(void) {
    say("{\"format\":\"boxwright-plug-in\",\"version\":1,\"name\":\"plain\",\"says\":\"layouts in plain characters\","
        "\"backends\":[{\"name\":\"plan\",\"says\":\"The plan in plain characters (plain-plan.txt)\","
        "\"reads\":{\"model\":[\"box/length\",\"box/width\",\"modules/*/name\",\"modules/*/extent/x\",\"modules/*/extent/y\"]}}]}");
}

/* What follows a word, or nothing. */
static const char *after(const char *at, const char *end, const char *word) {
    size length = length_of(word);
    for (; at + length <= end; at++) {
        size same = 0;
        while (same < length && at[same] == word[same])
            same++;
        if (same == length)
            return at + length;
    }
    return 0;
}

/* The whole part of a number; the next number begins behind it. */
static int number(const char **at, const char *end) {
    int value = 0, sign = 1;
    while (*at < end && **at != '-' && (**at < '0' || **at > '9'))
        (*at)++;
    if (*at < end && **at == '-') {
        sign = -1;
        (*at)++;
    }
    for (; *at < end && **at >= '0' && **at <= '9'; (*at)++)
        if (value < 10000000)
            value = value * 10 + (**at - '0');
    while (*at < end && **at != ',' && **at != ']' && **at != '}')
        (*at)++;
    return sign * value;
}

static int within(int value, int least, int most) { return value < least ? least : value > most ? most : value; }

/* A rectangle of millimetres, with a letter in its middle. */
static void rectangle(int x0, int x1, int y0, int y1, char letter) {
    int left = within(x0 / ALONG, 0, long_x), right = within(x1 / ALONG, 0, long_x);
    int top = within(y0 / ACROSS, 0, long_y), bottom = within(y1 / ACROSS, 0, long_y);
    for (int y = top; y <= bottom; y++)
        for (int x = left; x <= right; x++) {
            int side = x == left || x == right, edge = y == top || y == bottom;
            if (side || edge)
                grid[y][x] = side && edge ? '+' : side ? '|' : '-';
        }
    if (letter)
        grid[(top + bottom) / 2][(left + right) / 2] = letter;
}

static void read(const char *at, const char *end) {
    const char *found;
    while (modules < MOST_MODULES && (found = after(at, end, "{\"name\":\""))) {
        size length = 0;
        for (at = found; at < end && *at != '"'; at++)
            if (length + 1 < LONGEST)
                names[modules][length++] = *at;
        int x0, x1, y0, y1;
        if (!(at = after(at, end, "\"x\":")))
            return;
        x0 = number(&at, end), x1 = number(&at, end);
        if (!(at = after(at, end, "\"y\":")))
            return;
        y0 = number(&at, end), y1 = number(&at, end);
        rectangle(x0, x1, y0, y1, (char)(modules < 26 ? 'a' + modules : 'A' + modules - 26));
        modules++;
    }
}

EXPORT("backend") void backend(const char *question, size length) {
    const char *end = question + length, *at = after(question, end, "\"box\":{\"length\":");
    if (!at) {
        say("{\"format\":\"boxwright-answer\",\"version\":1,\"failed\":\"the question has no box\"}");
        return;
    }
    long_x = within(number(&at, end) / ALONG, 1, MOST_ALONG - 1);
    long_y = within(number(&at, end) / ACROSS, 1, MOST_ACROSS - 1);
    for (int y = 0; y <= long_y; y++)
        for (int x = 0; x <= long_x; x++)
            grid[y][x] = ' ';
    rectangle(0, long_x * ALONG, 0, long_y * ACROSS, 0);
    if ((at = after(question, end, "\"modules\":[")))
        read(at, end);
    say("{\"format\":\"boxwright-answer\",\"version\":1,\"files\":[{\"name\":\"plan.txt\",\"text\":\"");
    say("Plan, front to the left; a character is 100 mm along and 200 mm across\\n\\n");
    for (int y = 0; y <= long_y; y++) {
        answer(grid[y], (size)long_x + 1);
        say("\\n");
    }
    say("\\n");
    for (int one = 0; one < modules; one++) {
        char letter[2] = {(char)(one < 26 ? 'a' + one : 'A' + one - 26), 0};
        say(letter);
        say("  ");
        say(names[one]);
        say("\\n");
    }
    say("\"}]}");
}
