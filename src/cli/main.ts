process.stdout.write('tackwright\n');
