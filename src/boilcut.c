/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program: sets the libraries straight once, hands over to the command, checks its output. */
#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <jansson.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"

/* A standard stream that came closed would be given to the first file that is opened. It is filled
 * with what fails in the wrong direction, so that a lost result is noticed. */
static void fill_standard_streams(void)
{
	for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++) {
		if (fcntl(fd, F_GETFD) != -1)
			continue;
		if (open("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY) != fd)
			return;
	}
}

int main(int argc, char **argv)
{
	fill_standard_streams();
	bc_fault_from_environment();
	gsl_set_error_handler_off();
	json_set_alloc_funcs(bc_alloc, bc_free);
	return bc_out_close(bc_command_main(argc, argv));
}
