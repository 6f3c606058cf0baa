# cmake -D COMMAND="a;b;c" -D SAYING="..." -P quietly.cmake: runs the command without a word, or fails with all it said.
execute_process(COMMAND ${COMMAND} RESULT_VARIABLE result OUTPUT_VARIABLE said ERROR_VARIABLE said)
if(NOT result EQUAL 0)
  message("${said}")
  message(FATAL_ERROR "${SAYING}")
endif()
