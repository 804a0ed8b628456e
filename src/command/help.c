/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut help': written from the same tables that the parser reads. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "command/arguments.h"
#include "command/command.h"
#include "command/output.h"

#define COLUMNS 78
#define OPTION_INDENT 27

static void paragraphs(struct bc_text *text, const char *s)
{
	while (*s != '\0') {
		size_t n = strcspn(s, "\n");
		struct bc_text one;
		bc_text_init(&one);
		bc_text_append_n(&one, s, n);
		if (one.data != NULL)
			bc_text_append_wrapped(text, one.data, "", 0, COLUMNS);
		text->failed = text->failed || one.failed;
		bc_text_release(&one);
		s += n;
		if (*s == '\n') {
			bc_text_append(text, "\n");
			s++;
		}
	}
}

/* "      --want GRADE      text" */
static void option_row(struct bc_text *text, const struct bc_option *option)
{
	char lead[64];
	char letter[4] = "   ";
	if (option->letter != '\0')
		snprintf(letter, sizeof letter, "-%c,", option->letter);
	int n = snprintf(lead, sizeof lead, "  %s --%s%s%s", letter, option->name,
		option->argument != NULL ? " " : "",
		option->argument != NULL ? option->argument : "");
	if (n > OPTION_INDENT - 2) {
		bc_text_printf(text, "%s\n", lead);
		bc_text_append_wrapped(text, option->help, NULL, OPTION_INDENT, COLUMNS);
		return;
	}
	while (n < OPTION_INDENT)
		lead[n++] = ' ';
	lead[n] = '\0';
	bc_text_append_wrapped(text, option->help, lead, OPTION_INDENT, COLUMNS);
}

static const struct bc_option help_option = {"help", 'h', NULL, "this page"};

static void part_rows(struct bc_text *text, const struct bc_command *command)
{
	for (size_t i = 0; command->parts[i] != NULL; i++) {
		char lead[64];
		snprintf(lead, sizeof lead, "  %-16s ", command->parts[i]->name);
		bc_text_append_wrapped(text, command->parts[i]->summary, lead, 19, COLUMNS);
	}
	bc_text_append(text, "\n");
}

static void command_page(struct bc_text *text, const struct bc_command *command)
{
	for (size_t i = 0; command->synopses[i] != NULL; i++)
		bc_text_printf(text, "%s boilcut %s\n", i == 0 ? "Usage:" : "      ",
			command->synopses[i]);
	bc_text_append(text, "\n");
	paragraphs(text, command->about);
	bc_text_append(text, "\n");
	if (command->parts != NULL)
		part_rows(text, command);
	for (size_t i = 0; i < command->n_options; i++)
		option_row(text, &command->options[i]);
	option_row(text, &help_option);
	bc_text_append(text, "\nExamples:\n");
	for (size_t i = 0; command->examples[i] != NULL; i++)
		bc_text_printf(text, "  %s\n", command->examples[i]);
}

static void program_page(struct bc_text *text)
{
	bc_text_append(text, "Usage: boilcut COMMAND [ARGUMENT...]\n\n");
	paragraphs(text, "Judges oil by a boil-off: from a thermometer read against percent "
			 "recovered it works out what the oil boils like, how dangerous it is, "
			 "what it could be used as, and what to do next.");
	bc_text_append(text, "\nCommands:\n");
	for (size_t i = 0; bc_commands[i] != NULL; i++)
		bc_text_printf(text, "  %-9s %s\n", bc_commands[i]->name, bc_commands[i]->summary);
	bc_text_append(text, "\n");
	paragraphs(text,
		"'boilcut COMMAND --help' tells more of one. A FILE of '-' is standard input. "
		"'boilcut --version' prints the version.");
	bc_text_append(text,
		"\nExit status: 0 done; 1 a negative answer (--want, --standard); 2 wrong usage;\n"
		"3 the input is malformed; 4 the system failed; 5 the numbers failed.\n"
		"\nExamples:\n"
		"  boilcut judge --readings 'ibp 171, 5 184, 10 190, 50 222, 90 262, fbp 284'\n"
		"  boilcut help judge\n");
}

int bc_help_show(const struct bc_command *command)
{
	struct bc_text text;
	bc_text_init(&text);
	if (command == NULL)
		program_page(&text);
	else
		command_page(&text, command);
	int result = text.failed ? bc_no_memory() : BC_EXIT_DONE;
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static int run_help(const struct bc_arguments *arguments)
{
	const char *const *words = arguments->operands;
	int result = bc_arguments_count(arguments, 0, 2, "COMMAND");
	if (result != BC_EXIT_DONE)
		return result;
	if (arguments->n_operands == 0)
		return bc_help_show(NULL);
	const struct bc_command *command = bc_command_find(words[0]);
	if (command == NULL)
		return bc_command_unknown(NULL, words[0]);
	if (arguments->n_operands == 1)
		return bc_help_show(command);
	if (command->parts == NULL)
		return bc_arguments_count(arguments, 0, 1, "COMMAND");
	const struct bc_command *part = bc_command_part(command, words[1]);
	return part != NULL ? bc_help_show(part) : bc_command_unknown(command, words[1]);
}

static const char *const synopses[] = {"help [COMMAND [WORD]]", NULL};
static const char *const examples[] = {"boilcut help", "boilcut help draw", NULL};

const struct bc_command bc_help_command = {
	.name = "help",
	.summary = "what a command does and takes",
	.synopses = synopses,
	.about = "Shows the list of commands, or the help of one.",
	.examples = examples,
	.run = run_help,
};
