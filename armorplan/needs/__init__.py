"""What a build uses up: leather, fasteners, dye and finish, thread, glue, hours, and what it costs."""
