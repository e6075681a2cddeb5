/* Draws the pages of BenchmarkPlacards100000 with cairo (Debian libcairo2-dev, LGPL-2.1/MPL-1.1): LABELS labels,
 * PER a sheet, in files of at most FILE labels, on Letter paper. With "shared" what labels of one colour have in
 * common is recorded once a file, as our own stamps are; with "plain" every label is drawn whole,
 * and with "bare" it is a coloured rectangle and four lines of text, the least that a placard can be.
 * Prints the seconds and the bytes.
 *
 *     cc -O2 cairo_peer.c -o cairo_peer $(pkg-config --cflags --libs cairo)
 *     ./cairo_peer 100000 8 2000 shared
 */
#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static long bytes;

static cairo_status_t count(void *closure, const unsigned char *data, unsigned int length) {
	(void)closure;
	(void)data;
	bytes += length;
	return CAIRO_STATUS_SUCCESS;
}

static const char *names[3] = {"Navy", "Cream", "Scarlet"};
static const double colours[3][3] = {{0.078, 0.165, 0.361}, {1, 0.953, 0.839}, {0.851, 0.169, 0.169}};

static void text(cairo_t *c, double x, double y, double size, int bold, const char *s) {
	static cairo_font_face_t *faces[2];
	if (!faces[bold])
		faces[bold] = cairo_toy_font_face_create("Noto Sans", CAIRO_FONT_SLANT_NORMAL, bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
	cairo_set_font_face(c, faces[bold]);
	cairo_set_font_size(c, size);
	cairo_move_to(c, x, y);
	cairo_show_text(c, s);
}

/* The arrow, the patch with its pattern and letter, the cue, how to hold it. */
static void common(cairo_t *c, double w, double h, int colour) {
	char words[80];
	cairo_set_source_rgb(c, 0, 0, 0);
	cairo_move_to(c, 25, 10);
	cairo_line_to(c, 40, 28);
	cairo_line_to(c, 29, 28);
	cairo_line_to(c, 29, 46);
	cairo_line_to(c, 21, 46);
	cairo_line_to(c, 21, 28);
	cairo_line_to(c, 10, 28);
	cairo_fill(c);
	text(c, 19, 56, 8.5, 1, "UP");
	cairo_set_source_rgb(c, colours[colour][0], colours[colour][1], colours[colour][2]);
	cairo_rectangle(c, w * 0.7, 10, w * 0.27, 36);
	cairo_fill(c);
	cairo_set_source_rgb(c, 0, 0, 0);
	cairo_save(c);
	cairo_rectangle(c, w * 0.7, 10, w * 0.27, 36);
	cairo_clip(c);
	cairo_set_line_width(c, 0.8);
	for (double u = 0; colour > 0 && u < w * 0.27 + 36; u += 6) {
		cairo_move_to(c, w * 0.7 + u - 36, 46);
		cairo_line_to(c, w * 0.7 + u, 10);
		cairo_stroke(c);
	}
	cairo_restore(c);
	cairo_set_source_rgb(c, 1, 1, 1);
	cairo_rectangle(c, w * 0.82, 18, 20, 20);
	cairo_fill_preserve(c);
	cairo_set_source_rgb(c, 0, 0, 0);
	cairo_stroke(c);
	snprintf(words, sizeof words, "%c", names[colour][0]);
	text(c, w * 0.82 + 5, 34, 16, 1, words);
	text(c, w * 0.78, 58, 13, 1, names[colour]);
	text(c, 10, h - 40, 9.5, 0, "Cue Glow: ");
	snprintf(words, sizeof words, "show %s", names[colour]);
	text(c, 58, h - 40, 9.5, 1, words);
	text(c, 10, h - 27, 9.5, 0, "Hold it up with the long side level, top edge at your eyes. This side towards you.");
	text(c, 10, h - 14, 9.5, 0, "Keep it for a second take. Do not throw it.");
}

int main(int argc, char **argv) {
	if (argc != 5)
		return 2;
	int labels = atoi(argv[1]), per = atoi(argv[2]), file = atoi(argv[3]), shared = !strcmp(argv[4], "shared");
	struct timespec t0, t1;
	clock_gettime(CLOCK_MONOTONIC, &t0);
	for (int from = 0; from < labels; from += file) {
		cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(count, NULL, 612, 792);
		cairo_t *c = cairo_create(pdf);
		double w = 286, h = 184;
		cairo_surface_t *stamps[3];
		for (int k = 0; k < 3; k++) {
			cairo_rectangle_t box = {0, 0, w, h};
			stamps[k] = cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &box);
			cairo_t *s = cairo_create(stamps[k]);
			common(s, w, h, k);
			cairo_destroy(s);
		}
		for (int n = from; n < labels && n < from + file; n++) {
			int place = (n - from) % per, row = n / 50, seat = n % 50 + 1, colour = (seat / 3 + row / 2) % 3;
			double x = 20 + place / (per / 2) * w, y = 20 + place % (per / 2) * h;
			char words[80];
			cairo_save(c);
			cairo_translate(c, x, y);
			if (shared) {
				cairo_set_source_surface(c, stamps[colour], 0, 0);
				cairo_paint(c);
			} else if (!strcmp(argv[4], "plain")) {
				common(c, w, h, colour);
			} else {
				cairo_set_source_rgb(c, colours[colour][0], colours[colour][1], colours[colour][2]);
				cairo_rectangle(c, w * 0.7, 10, w * 0.27, 36);
				cairo_fill(c);
				cairo_set_source_rgb(c, 0, 0, 0);
				text(c, 10, h - 40, 9.5, 0, names[colour]);
				text(c, 10, h - 14, 9.5, 0, "Keep it for a second take. Do not throw it.");
			}
			cairo_set_source_rgb(c, 0, 0, 0);
			snprintf(words, sizeof words, "S%d-%d-%d", n / 2000, row % 40 + 1, seat);
			text(c, 50, 40, 34, 1, words);
			snprintf(words, sizeof words, "Section S%d, row %d, seat %d", n / 2000, row % 40 + 1, seat);
			text(c, 10, h - 55, 13.5, 0, words);
			cairo_restore(c);
			if (place == per - 1 || n == labels - 1 || n == from + file - 1) {
				snprintf(words, sizeof words, "Plan K7QM2X9D, page %d", (n - from) / per + 1);
				text(c, 475, 776, 8, 0, words);
				text(c, 30, 776, 8, 0, "Placards, section S0. x");
				cairo_show_page(c);
			}
		}
		cairo_destroy(c);
		cairo_surface_destroy(pdf);
		for (int k = 0; k < 3; k++)
			cairo_surface_destroy(stamps[k]);
	}
	clock_gettime(CLOCK_MONOTONIC, &t1);
	printf("%.3f s %ld bytes\n", t1.tv_sec - t0.tv_sec + (t1.tv_nsec - t0.tv_nsec) / 1e9, bytes);
	return 0;
}
